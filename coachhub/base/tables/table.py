"""What a read table is, how large it may be, and how a text becomes a cell and back."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any, Final

from django.utils.translation import gettext as _

MEGABYTE: Final = 1024 * 1024
MOST_BYTES: Final = 10 * MEGABYTE
MOST_ROWS: Final = 5000
MOST_COLUMNS: Final = 60
MOST_LETTERS: Final = 2000  # in one cell

# A spreadsheet takes a cell that begins so for a formula: ASVS 1.2.10 names = + - @ tab and null; line ends and the
# wide forms of the four are taken so by some programs.
_FORMULA: Final = re.compile("'*[=+\\-@\t\r\n＝＋－＠]")  # noqa: RUF001
# Neither XML nor a reader can do anything with these.
_UNSEEN: Final = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\ufffe\uffff]")


class TableError(Exception):
    """Why a file is not taken: a whole sentence with a way out."""


@dataclass(frozen=True, slots=True)
class Row:
    """`number`: its line in the spreadsheet. `formulas`: which cells hold a formula or an error of the spreadsheet.

    `beyond`: what stands to the right of the header's last column.
    """

    number: int
    cells: tuple[str, ...]
    formulas: frozenset[int] = frozenset()
    beyond: str = ""


@dataclass(frozen=True, slots=True)
class Table:
    """A header and the filled rows below it; `remarks` are sentences on how the file was read."""

    headers: tuple[str, ...]
    rows: tuple[Row, ...]
    remarks: tuple[str, ...] = ()

    def as_data(self) -> dict[str, Any]:
        """For keeping as JSON."""
        rows = [[row.number, row.cells, sorted(row.formulas), row.beyond] for row in self.rows]
        return {"headers": self.headers, "rows": rows, "remarks": self.remarks}

    @classmethod
    def from_data(cls, data: dict[str, Any]) -> Table:
        rows = (Row(no, tuple(cells), frozenset(formulas), beyond) for no, cells, formulas, beyond in data["rows"])
        return cls(tuple(data["headers"]), tuple(rows), tuple(data["remarks"]))


def tidy(text: str) -> str:
    """One spelling of the same text: composed letters, plain line ends, no unseen signs, no space around it."""
    lines = _UNSEEN.sub("", text).replace("\r\n", "\n").replace("\r", "\n")
    return unicodedata.normalize("NFC", lines).strip()


def guarded(text: str) -> str:
    """Text as it is written: an apostrophe before whatever a spreadsheet would take for a formula."""
    return f"'{text}" if _FORMULA.match(text) else text


def unguarded(text: str) -> str:
    """What `guarded` made of it, undone."""
    return text[1:] if text.startswith("'") and _FORMULA.match(text) else text


def read_cell(text: str) -> str:
    return tidy(unguarded(tidy(text)))


def build_table(rows: Iterable[Row], remarks: tuple[str, ...]) -> Table:
    """The first row with anything in it is the header; empty rows are passed over. Stops reading at the limits."""
    filled = _filled(rows)
    head = next(filled, None)
    if head is None:
        raise TableError(_("The file is empty."))
    headers = _without_tail(head.cells)
    if len(headers) < 2:
        raise TableError(_("The file has only one column. Columns are parted by a comma, a semicolon or a tab."))
    if len(headers) > MOST_COLUMNS:
        raise TableError(
            _("The file has more than %(most)s columns. Keep those that are needed.") % _most(MOST_COLUMNS)
        )
    kept: list[Row] = []
    for row in filled:
        if len(kept) == MOST_ROWS:
            raise too_many_rows()
        kept.append(_fitted(row, len(headers)))
    if not kept:
        raise TableError(_("The file has a header, and no row below it."))
    return Table(headers, tuple(kept), remarks)


def too_many_rows() -> TableError:
    return TableError(
        _("The file has more than %(most)s rows. Split it; delete empty rows below the table.") % _most(MOST_ROWS)
    )


def _most(limit: int) -> dict[str, str]:
    return {"most": f"{limit:,}"}


def _filled(rows: Iterable[Row]) -> Iterator[Row]:
    for row in rows:
        if not any(row.cells):
            continue
        if any(len(cell) > MOST_LETTERS for cell in row.cells):
            told = {"row": row.number, **_most(MOST_LETTERS)}
            raise TableError(_("A cell in row %(row)s has more than %(most)s letters. Please shorten it.") % told)
        yield row


def _without_tail(cells: tuple[str, ...]) -> tuple[str, ...]:
    """Without the empty cells on the right that spreadsheets leave."""
    end = next((i for i in range(len(cells), 0, -1) if cells[i - 1]), 0)
    return cells[:end]


def _fitted(row: Row, width: int) -> Row:
    """As wide as the header."""
    cells = row.cells[:width] + ("",) * (width - len(row.cells))
    formulas = frozenset(index for index in row.formulas if index < width)
    return Row(row.number, cells, formulas, " ".join(cell for cell in row.cells[width:] if cell))
