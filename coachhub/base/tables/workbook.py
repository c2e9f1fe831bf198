"""The first sheet of an .xlsx file: a zip of XML, so what it unpacks to is measured before anything is parsed."""

from __future__ import annotations

import warnings
import zlib
from collections.abc import Iterator
from datetime import date, datetime
from typing import Any, BinaryIO, Final
from zipfile import ZIP_DEFLATED, ZIP_STORED, BadZipFile, ZipFile, ZipInfo

from django.utils.translation import gettext as _

from coachhub.base.tables.table import (
    MEGABYTE,
    MOST_COLUMNS,
    MOST_ROWS,
    Row,
    Table,
    TableError,
    build_table,
    read_cell,
    too_many_rows,
)

_CHUNK: Final = MEGABYTE // 16
_MOST_PARTS: Final = 1000
_MOST_UNPACKED: Final = 25 * MEGABYTE
_MOST_RATIO: Final = 200  # sheets pack about 20:1; a part below a megabyte may pack better, it does no harm
# 5,000 rows of 20 texts, each in three tags with an end; and what there is of formats, themes and lists of parts.
_MOST_TAGS: Final = 700_000
_MOST_OTHER_TAGS: Final = 50_000
_CELLS: Final = ("xl/worksheets/", "xl/sharedStrings")
_MAIN: Final = "xl/workbook.xml"
# Beside those with something in them: the header, and empty ones between.
_SPARE_ROWS: Final = 1000
# What zipfile and openpyxl raise on a damaged file; RuntimeError also stands for an encrypted part.
_DAMAGE: Final = (
    BadZipFile, zlib.error, OSError, EOFError, SyntaxError, ValueError, TypeError, LookupError, AttributeError,
    ArithmeticError, RuntimeError,
)  # fmt: skip


def read_workbook(file: BinaryIO) -> Table:
    try:
        with ZipFile(file) as archive:
            _measure(archive)
        file.seek(0)
        return _first_sheet(file)
    except _DAMAGE:
        raise TableError(
            _("This spreadsheet is damaged or has a password. Save it anew as .xlsx, or as CSV.")
        ) from None


def _measure(archive: ZipFile) -> None:
    """First by what the zip says of itself, then by unpacking it in small pieces that are thrown away."""
    parts = archive.infolist()
    if _MAIN not in {part.filename for part in parts}:
        raise TableError(_("This zip file is no .xlsx spreadsheet. Save the table as .xlsx or as CSV."))
    if len(parts) > _MOST_PARTS or sum(part.file_size for part in parts) > _MOST_UNPACKED:
        raise _too_much()
    if any(part.compress_type not in {ZIP_STORED, ZIP_DEFLATED} for part in parts):
        raise BadZipFile
    if any(_swells(part, part.file_size) for part in parts):
        raise _too_much()
    unpacked = 0
    for part in parts:
        tags = rows = 0
        most_tags = _MOST_TAGS if part.filename.startswith(_CELLS) else _MOST_OTHER_TAGS
        for piece in _pieces(archive, part):
            unpacked += len(piece)
            tags += piece.count(b"<")
            rows += piece.count(b"<row")
            # A tag that two pieces share is missed: a few rows more come through to the exact count.
            if rows > MOST_ROWS + _SPARE_ROWS:
                raise too_many_rows()
            if unpacked > _MOST_UNPACKED or tags > most_tags:
                raise _too_much()


def _swells(part: ZipInfo, size: int) -> bool:
    return size > MEGABYTE and size > _MOST_RATIO * max(part.compress_size, 1)


def _pieces(archive: ZipFile, part: ZipInfo) -> Iterator[bytes]:
    with archive.open(part) as stream:
        while piece := stream.read(_CHUNK):
            if b"<!DOCTYPE" in piece or b"<!ENTITY" in piece:
                raise TableError(_("The file holds definitions that no spreadsheet writes. It was not read."))
            yield piece


def _too_much() -> TableError:
    told = {"most": _MOST_UNPACKED // MEGABYTE}
    return TableError(_("Unpacked, the file is larger than %(most)s MB or too intricate. Keep only the table.") % told)


def _first_sheet(file: BinaryIO) -> Table:
    from openpyxl import load_workbook

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # on parts of a workbook that openpyxl passes over
        book = load_workbook(file, read_only=True, keep_links=False)
        try:
            sheets = [sheet for sheet in book.worksheets if sheet.sheet_state == "visible"]
            if not sheets:
                raise TableError(_("The file has no sheet with a table."))
            remarks = (_remark(sheets[0].title),) if len(sheets) > 1 else ()
            return build_table(_rows(sheets[0]), remarks)
        finally:
            book.close()


def _remark(title: str) -> str:
    return _("The file has several sheets; only the first, “%(title)s”, is read.") % {"title": title}


def _rows(sheet: Any) -> Iterator[Row]:
    for number, cells in enumerate(sheet.iter_rows(max_col=MOST_COLUMNS + 1), 1):
        if number > MOST_ROWS + _SPARE_ROWS:
            raise too_many_rows()
        texts = tuple("" if cell.value is None else _text_of(cell.value, cell.data_type) for cell in cells)
        yield Row(number, texts, frozenset(i for i, cell in enumerate(cells) if cell.data_type in {"f", "e"}))


def _text_of(value: object, data_type: str) -> str:
    """As a person would type it: days without a clock, numbers without a tail of zeros. A formula stays unread."""
    if data_type == "f":
        return _("a formula")
    if isinstance(value, datetime):
        return value.date().isoformat()
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, float):
        return f"{value:.15g}"
    return read_cell(str(value))
