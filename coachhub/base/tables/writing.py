"""Tables written for spreadsheets. No cell begins a formula; long ones never stand in memory as a whole."""

from __future__ import annotations

import csv
import io
import tempfile
from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from itertools import islice
from typing import IO, Any, Final

from coachhub.base.tables.table import MEGABYTE, guarded, tidy

# A text, or a figure to reckon with.
Cell = str | int | Decimal
Lines = Iterable[Sequence[Cell]]

_LINES_A_PIECE: Final = 200
# A workbook beyond it goes to the disk.
_IN_MEMORY: Final = MEGABYTE // 2


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
    from openpyxl import Workbook
    from openpyxl.cell import WriteOnlyCell

    def as_cell(value: Cell) -> Any:
        safe = _safe(value)
        if safe == "":
            return None  # no cell at all: half of a long table is empty
        cell = WriteOnlyCell(sheet, safe)
        if isinstance(safe, str):
            cell.data_type = "s"  # else “#N/A” would be written as an error of the spreadsheet
        return cell

    book = Workbook(write_only=True)
    sheet = book.create_sheet(title)
    sheet.freeze_panes = "A2"
    for line in lines:
        sheet.append([as_cell(cell) for cell in line])
    file = tempfile.SpooledTemporaryFile(_IN_MEMORY)  # noqa: SIM115 - whoever takes it closes it
    book.save(file)
    file.seek(0)
    return file


def xlsx_bytes(lines: Lines, title: str) -> bytes:
    with xlsx_file(lines, title) as file:
        return file.read()


def _safe(value: Cell) -> Cell:
    return guarded(tidy(value)) if isinstance(value, str) else value
