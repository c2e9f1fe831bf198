"""The reviewed table: what each address answers to each role. One module an area, each with a `TABLE`.

A row gives, for GET, POST and an htmx GET, the expected outcome of every role in the order of `ROLES`:
a status code, or `login` for being sent to log in (by a redirect, or by HX-Redirect in a fragment).
One word stands for all roles. POST is sent without data.
"""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Callable
from dataclasses import dataclass

from tests.cast import Cast, Role

#        anonymous owner coach other-coach assistant clinician head-coach athlete team-mate guardian outsider
ROLES = tuple(Role)


def no_arguments(_cast: Cast) -> dict[str, object]:
    return {}


@dataclass(frozen=True)
class Row:
    get: str
    post: str
    htmx: str
    args: Callable[[Cast], dict[str, object]] = no_arguments

    def expected(self) -> dict[tuple[str, Role], str]:
        return {
            (shape, role): word
            for shape, words in (("GET", self.get), ("POST", self.post), ("htmx", self.htmx))
            for role, word in zip(ROLES, spread(words), strict=True)
        }


def spread(words: str) -> list[str]:
    parts = words.split()
    return parts * len(ROLES) if len(parts) == 1 else parts


def whole_table() -> dict[str, Row]:
    """url name (with its namespace) -> row, merged from all areas; an address reviewed twice is a mistake."""
    table: dict[str, Row] = {}
    for module in pkgutil.iter_modules(__path__):
        for name, row in importlib.import_module(f"{__name__}.{module.name}").TABLE.items():
            assert name not in table, f"{name} is in two tables"
            table[name] = row
    return table
