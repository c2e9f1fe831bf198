"""Tables written for spreadsheets. No cell begins a formula; long ones never stand in memory as a whole."""

from __future__ import annotations

import csv
import io
import tempfile
from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from itertools import islice
from typing import IO, TYPE_CHECKING, Final

from coachhub.base.tables.table import MEGABYTE, guarded, tidy

if TYPE_CHECKING:
    from xlsxwriter.worksheet import Worksheet

# A text, or a figure to reckon with.
Cell = str | int | Decimal
Lines = Iterable[Sequence[Cell]]

_LINES_A_PIECE: Final = 200
# A workbook beyond it goes to the disk.
_IN_MEMORY: Final = MEGABYTE // 2
# A cell of a spreadsheet holds no more.
_MOST_LETTERS: Final = 32_767


def csv_stream(lines: Lines) -> Iterator[bytes]:
    """UTF-8 with the mark by which spreadsheets know it; every cell in quotation marks; some lines at a time."""
    left = iter(lines)
    mark = "utf-8-sig"
    while piece := list(islice(left, _LINES_A_PIECE)):
        text = io.StringIO(newline="")
        writer = csv.writer(text, quoting=csv.QUOTE_ALL)
        writer.writerows([_safe(cell) for cell in line] for line in piece)
        yield text.getvalue().encode(mark)
        mark = "utf-8"


def csv_bytes(lines: Lines) -> bytes:
    return b"".join(csv_stream(lines))


def xlsx_file(lines: Lines, title: str) -> IO[bytes]:
    """One sheet, its first line kept in view, in a file that is gone when it is closed."""
    from xlsxwriter import Workbook

    file = tempfile.SpooledTemporaryFile(_IN_MEMORY)  # noqa: SIM115 - whoever takes it closes it
    with Workbook(file, {"constant_memory": True}) as book:
        sheet = book.add_worksheet(title)
        sheet.freeze_panes(1, 0)
        for row, line in enumerate(lines):
            for column, value in enumerate(line):
                _put(sheet, row, column, _safe(value))
    file.seek(0)
    return file


def _put(sheet: Worksheet, row: int, column: int, value: Cell) -> None:
    """As text or as a figure, whatever the text looks like; nothing where it is empty: half of a long table is."""
    if not isinstance(value, str):
        sheet.write_number(row, column, value)
    elif value:
        sheet.write_string(row, column, value[:_MOST_LETTERS])


def xlsx_bytes(lines: Lines, title: str) -> bytes:
    with xlsx_file(lines, title) as file:
        return file.read()


def _safe(value: Cell) -> Cell:
    return guarded(tidy(value)) if isinstance(value, str) else value
