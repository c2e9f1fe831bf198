"""Queries that every page asks: Django writes their SQL once, afterwards only values are put in.

Writing the SQL takes Django ten times what the database takes to answer it.
"""

from __future__ import annotations

from collections import namedtuple
from collections.abc import Callable, Iterator, Sequence
from typing import Any, Final, cast

from django.db import DEFAULT_DB_ALIAS, connections
from django.db.models import QuerySet

Value = int | str | Sequence[int] | Sequence[str]
# Stand in for values while the SQL is written; small enough for every integer column.
_FIRST_MARK: Final = 31_000


class Statement:
    """Rows as named tuples of `columns` (names as in `values_list`), for the queryset that `build(*values)` makes.

    `build` runs once a shape, with stand-ins for the values: numbers, texts, or lists of either. So it must take them
    straight to the database, and make its queryset of nothing else: what depends on who asks is asked apart.
    """

    def __init__(self, columns: Sequence[str], build: Callable[..., QuerySet[Any, Any]]) -> None:
        self.columns = columns
        self.build = build
        self.row: Any = namedtuple_of(columns)
        self._written: dict[tuple[object, ...], _Written] = {}

    def rows(self, *values: Value) -> list[Any]:
        lists = [value for value in values if isinstance(value, Sequence) and not isinstance(value, str)]
        if not all(lists):
            return []
        connection = connections[DEFAULT_DB_ALIAS]
        shape = (connection.vendor, *(_shape(value) for value in values))
        written = self._written.get(shape) or self._written.setdefault(shape, self._write(values))
        with connection.cursor() as cursor:
            cursor.execute(written.sql, written.put_in(_flat(values)))
            return [self.row._make(row) for row in written.read(cursor.fetchall())]

    def _write(self, values: Sequence[Value]) -> _Written:
        marks = iter(range(_FIRST_MARK, _FIRST_MARK + len(_flat(values))))
        marked = [_mark(value, marks) for value in values]
        query = self.build(*marked).values_list(*self.columns).query
        compiler = query.get_compiler(DEFAULT_DB_ALIAS)
        sql, parameters = compiler.as_sql()
        return _Written(sql, parameters, _flat(marked), compiler)


def namedtuple_of(columns: Sequence[str]) -> Any:
    return type("Row", (namedtuple("Row", columns),), {"__slots__": ()})  # noqa: PYI024 - names come from outside


class _Written:
    """One SQL text, with the place of each value among its parameters, and what turns columns into Python."""

    def __init__(self, sql: str, parameters: Sequence[Any], marks: Sequence[object], compiler: Any) -> None:
        self.sql = sql
        self.constants = [None if parameter in marks else parameter for parameter in parameters]
        self.places = [(at, marks.index(p)) for at, p in enumerate(parameters) if p in marks]
        self.compiler = compiler
        self.converters = compiler.get_converters([column for column, *_ in compiler.select])
        if {place for _, place in self.places} != set(range(len(marks))):
            raise ValueError(f"not every value reached the SQL as it was given: {sql}")

    def put_in(self, values: Sequence[int | str]) -> list[Any]:
        parameters: list[Any] = list(self.constants)
        for at, place in self.places:
            parameters[at] = values[place]
        return parameters

    def read(self, rows: list[Any]) -> Any:
        return self.compiler.apply_converters(rows, self.converters) if self.converters else rows


def _shape(value: Value) -> object:
    return type(value) if isinstance(value, int | str) else len(value)


def _flat(values: Sequence[Value]) -> list[int | str]:
    return [one for value in values for one in ([value] if isinstance(value, int | str) else value)]


def _mark(value: Value, marks: Iterator[int]) -> Value:
    if isinstance(value, int | str):
        return _mark_one(value, marks)
    return cast("Sequence[int]", [_mark_one(one, marks) for one in value])


def _mark_one(value: int | str, marks: Iterator[int]) -> int | str:
    return str(next(marks)) if isinstance(value, str) else next(marks)
