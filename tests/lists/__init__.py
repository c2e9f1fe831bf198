"""Every address that shows a list: how its rows are made, who reads it, and what stands there without any.

Each row is called `Row007` somewhere on its page, by which it is counted, whatever the page is made of.
One module an area, each with a `TABLE`; a new list gets its line there. A second list of an address stands under its
name and a word more.
"""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any, TypeVar

from django.db.models import Model, QuerySet

from coachhub.base.models import Named
from tests.cast import Cast, Role

MANY = 300
# Where each row costs a page its time.
FEW = 30
PAGED = 50

Make = Callable[[Cast, Sequence[str]], object]


@dataclass(frozen=True)
class Listing:
    """`make`: adds rows with these names. `empty`: what is said without rows, after `clear` where the cast is there.

    Of `many` rows a page shows `at_once`, and its pager leads to `of_all`. `many` is less than three hundred where no
    club has as many, or each takes its time. `sign`: what a row is known by where it has no name.
    """

    make: Make
    empty: str
    args: Callable[[Cast], dict[str, object]] = lambda _cast: {}
    role: Role = Role.OWNER
    clear: Callable[[Cast], object] = lambda _cast: None
    many: int = MANY
    at_once: int = 0
    of_all: int = 0
    most_queries: int = 10
    asked: Callable[[Cast], str] = lambda _cast: ""
    sign: str = r"Row\d{3}"


def names(first: int, last: int) -> list[str]:
    return [f"Row{number:03d}" for number in range(first, last)]


M = TypeVar("M", bound=Model)


def put(rows: Iterable[M]) -> list[M]:
    """In one statement; what is found by its name gets its key first."""
    made = list(rows)
    for row in made:
        if isinstance(row, Named):
            row.renew_key()
    rows_of: QuerySet[M] = QuerySet(type(made[0]))
    return list(rows_of.bulk_create(made))


def whole_table() -> dict[str, Listing]:
    """url name -> how its list is filled, merged from all areas."""
    table: dict[str, Any] = {}
    for module in pkgutil.iter_modules(__path__):
        table |= importlib.import_module(f"{__name__}.{module.name}").TABLE
    return table
