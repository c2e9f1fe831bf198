"""Tables written for spreadsheets. Every cell is text, and none begins a formula."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from typing import Any

from coachhub.base.tables.table import guarded, tidy

Lines = Iterable[Sequence[str]]


def csv_bytes(lines: Lines) -> bytes:
    """UTF-8 with the mark by which spreadsheets know it; every cell in quotation marks."""
    text = io.StringIO(newline="")
    writer = csv.writer(text, quoting=csv.QUOTE_ALL)
    writer.writerows([_safe(cell) for cell in line] for line in lines)
    return text.getvalue().encode("utf-8-sig")


def xlsx_bytes(lines: Lines, title: str) -> bytes:
    """One sheet, its first line kept in view."""
    from openpyxl import Workbook
    from openpyxl.cell import WriteOnlyCell

    def as_text(text: str) -> Any:
        cell = WriteOnlyCell(sheet, _safe(text))
        cell.data_type = "s"  # else “#N/A” would be written as an error of the spreadsheet
        return cell

    book = Workbook(write_only=True)
    sheet = book.create_sheet(title)
    sheet.freeze_panes = "A2"
    for line in lines:
        sheet.append([as_text(cell) for cell in line])
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()


def _safe(text: str) -> str:
    return guarded(tidy(text))
