"""Which column of a table holds what, and what a cell says: days, numbers, one of several words."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from typing import Any, Final, TypeVar

from django.db.models import TextChoices
from django.utils.functional import Promise
from django.utils.translation import gettext as _

from coachhub.base.tables import Row, Table
from coachhub.base.text import fold

T = TypeVar("T")

DAY_FIRST: Final = "dmy"
MONTH_FIRST: Final = "mdy"
UNIT_WORDS: Final = {"kilograms": "kg", "kilogram": "kg", "kgs": "kg", "pounds": "lb", "pound": "lb", "lbs": "lb"}
_YEAR_FIRST: Final = re.compile(r"(\d{4})[-./](\d{1,2})[-./](\d{1,2})(?:[T ]00:00(?::00)?)?\Z")
_YEAR_LAST: Final = re.compile(r"(\d{1,2})([-./ ])\s?(\d{1,2})\2\s?(\d{4})\Z")
_NUMBER: Final = re.compile(r"(\d{1,7}(?:[.,]\d{1,2})?)\s*([a-z]*)\.?\Z", re.ASCII | re.IGNORECASE)


class CellError(Exception):
    """What is wrong with a cell, in words that fit beside its row."""


@dataclass(frozen=True, slots=True)
class Column:
    """`names`: other headers by which clubs call it. `group`: the heading it stands under on the page."""

    key: str
    label: str | Promise
    names: tuple[str, ...] = ()
    is_required: bool = False
    group: str | Promise = ""


@dataclass(frozen=True, slots=True)
class Reading:
    """How a person said that a table is to be read: which column is what, how days are written, what fills gaps."""

    columns: Mapping[str, int] = field(default_factory=dict)
    day_order: str = DAY_FIRST
    unit: str = ""
    squad: int | None = None
    what: str = ""

    def as_data(self) -> dict[str, Any]:
        told = {"day_order": self.day_order, "unit": self.unit, "squad": self.squad, "what": self.what}
        return {"columns": dict(self.columns), **told}

    @classmethod
    def from_data(cls, data: dict[str, Any]) -> Reading:
        return cls(**data)


def guess_columns(headers: Sequence[str], columns: Iterable[Column]) -> dict[str, int]:
    """By name alone: a column that is not sure is left to the person. A header is used once."""
    plain = [_letters(header) for header in headers]
    found: dict[str, int] = {}
    for column in columns:
        names = {_letters(str(column.label)), *(_letters(name) for name in column.names)}
        index = next((i for i, name in enumerate(plain) if name in names and i not in found.values()), None)
        if index is not None:
            found[column.key] = index
    return found


def _letters(text: str) -> str:
    return "".join(c for c in fold(text) if c.isalnum())


def guess_day_order(cells: Iterable[str]) -> str:
    """Empty where the file does not show it: 03/04/2012 alone could be either."""
    written = [match for cell in cells if (match := _YEAR_LAST.match(cell))]
    day_first = any(int(match[1]) > 12 for match in written)
    month_first = any(int(match[3]) > 12 for match in written)
    if day_first and month_first:
        return ""
    if month_first:
        return MONTH_FIRST
    # Points between are used only where the day comes first.
    return DAY_FIRST if day_first or all(match[2] == "." for match in written) else ""


def cells_of(table: Table, index: int | None) -> list[str]:
    return [row.cells[index] for row in table.rows] if index is not None else []


@dataclass(frozen=True, slots=True)
class RowReader:
    """One row by the names of its columns; a column that the file does not have reads as empty."""

    row: Row
    reading: Reading

    def text(self, key: str) -> str:
        index = self.reading.columns.get(key)
        if index is None:
            return ""
        if index in self.row.formulas:
            raise CellError(_("a formula or an error; write its value there"))
        return self.row.cells[index]

    def day(self, key: str) -> date | None:
        text = self.text(key)
        return read_day(text, self.reading.day_order) if text else None


class Problems:
    """Collects what is wrong with the cells of one row, each with the name of its column."""

    def __init__(self, reader: RowReader, columns: Iterable[Column]) -> None:
        self.labels = {column.key: column.label for column in columns}
        self.words: list[str] = []
        if reader.row.beyond:
            self.words.append(_("more cells than the header has; does a comma lack its quotation marks?"))

    def reading(self, key: str, read: Callable[[], T], otherwise: T) -> T:
        try:
            return read()
        except CellError as error:
            self.words.append(f"{self.labels[key]}: {error}")
            return otherwise


def read_day(text: str, order: str) -> date:
    if match := _YEAR_FIRST.match(text):
        year, month, day = match[1], match[2], match[3]
    elif match := _YEAR_LAST.match(text):
        year, day, month = match[4], match[1], match[3]
        if order == MONTH_FIRST:
            day, month = month, day
    else:
        raise CellError(_("“%(text)s” is no date such as 2012-04-30 or 30.4.2012") % {"text": shown(text)})
    try:
        return date(int(year), int(month), int(day))
    except ValueError:
        raise CellError(_("there is no day “%(text)s”") % {"text": shown(text)}) from None


def read_number(text: str) -> tuple[Decimal, str]:
    """A number above or at nothing, and the letters behind it: "82,5 kg" is (82.5, "kg")."""
    match = _NUMBER.match(text)
    if match is None:
        raise CellError(_("“%(text)s” is no number such as 82.5") % {"text": shown(text)})
    return Decimal(match[1].replace(",", ".")), match[2].lower()


def read_whole(text: str) -> int:
    number, rest = read_number(text)
    if rest or number != int(number):
        raise CellError(_("“%(text)s” is no whole number") % {"text": shown(text)})
    return int(number)


def read_choice(text: str, choices: type[TextChoices], names: Mapping[str, str] | None = None) -> str:
    """By code or word, in any case; `names`: further words for a code."""
    known = {fold(str(label)): code for code, label in choices.choices} | {code: code for code in choices.values}
    code = (known | dict(names or {})).get(fold(text))
    if code is None:
        words = ", ".join(str(label) for label in choices.labels)
        raise CellError(_("“%(text)s” is none of: %(words)s") % {"text": shown(text), "words": words})
    return str(code)


def shown(text: str) -> str:
    """Of a long cell only the beginning."""
    return text if len(text) <= 40 else f"{text[:39]}…"
