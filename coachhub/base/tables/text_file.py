"""Comma, semicolon or tab separated text, in the encodings that spreadsheets write."""

from __future__ import annotations

import codecs
import csv
import io
import re
from collections.abc import Generator, Iterator
from contextlib import closing
from itertools import islice
from typing import BinaryIO, Final

from django.utils.translation import gettext as _

from coachhub.base.tables.table import MEGABYTE, Row, Table, TableError, build_table, read_cell

_CHUNK: Final = MEGABYTE // 4
_LONGEST_LINE: Final = MEGABYTE // 4
_DELIMITERS: Final = (",", ";", "\t")
_TRIED_ROWS: Final = 20
# One of these in a text means that it is none.
_CONTROL: Final = re.compile("[\x00-\x08\x0e-\x1f]")
_SAID: Final = re.compile(r"sep=([,;|\t])\r?\n?\Z")


def read_text_file(file: BinaryIO) -> Table:
    encoding = _encoding_of(file)
    remarks = () if encoding != "cp1252" else (_cp1252_remark(),)
    try:
        delimiter, skipped = _delimiter_of(file, encoding)
        with closing(_lines(file, encoding)) as lines:
            return build_table(_rows(islice(lines, skipped, None), delimiter), remarks)
    except csv.Error:
        raise TableError(
            _("A quotation mark in the file is never closed, or a cell is far too long. Save it as CSV anew.")
        ) from None


def _cp1252_remark() -> str:
    return _("The file is not in UTF-8; it was read as Windows-1252. Look at names with accents before you confirm.")


def _encoding_of(file: BinaryIO) -> str:
    start = file.read(4)
    marked = start.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE))
    for encoding in ("utf-16",) if marked else ("utf-8-sig", "cp1252"):
        if _decodes(file, encoding):
            return encoding
    raise TableError(_("This is no table of text. Save it as “CSV UTF-8”, or as .xlsx."))


def _decodes(file: BinaryIO, encoding: str) -> bool:
    """Whether the whole file is text in this encoding; read in parts, so that memory stays small."""
    file.seek(0)
    decoder = codecs.getincrementaldecoder(encoding)()
    try:
        while chunk := file.read(_CHUNK):
            if _CONTROL.search(decoder.decode(chunk)):
                return False
        decoder.decode(b"", final=True)
    except UnicodeDecodeError:
        return False
    return True


def _lines(file: BinaryIO, encoding: str) -> Generator[str, None, None]:
    file.seek(0)
    text = io.TextIOWrapper(file, encoding=encoding, newline="")
    try:
        while line := text.readline(_LONGEST_LINE):
            if len(line) == _LONGEST_LINE:
                raise TableError(_("A line of the file is far too long for a table."))
            yield line
    finally:
        text.detach()


def _delimiter_of(file: BinaryIO, encoding: str) -> tuple[str, int]:
    """The sign between cells, and how many lines to pass over before the table."""
    with closing(_lines(file, encoding)) as source:
        lines = list(islice(source, _TRIED_ROWS))
    if lines and (said := _SAID.match(lines[0])):
        return said.group(1), 1
    return max(_DELIMITERS, key=lambda sign: _fit(lines, sign)), 0


def _fit(lines: list[str], delimiter: str) -> tuple[int, int]:
    """How many rows are as wide as the header, if that is wider than one cell; then how wide it is."""
    try:
        rows = [row for row in csv.reader(lines, delimiter=delimiter) if row]
    except csv.Error:
        return 0, 0
    width = len(rows[0]) if rows else 0
    return (sum(len(row) == width for row in rows), width) if width > 1 else (0, 0)


def _rows(lines: Iterator[str], delimiter: str) -> Iterator[Row]:
    """Numbered as a spreadsheet shows them, whatever line ends the cells hold."""
    for number, cells in enumerate(csv.reader(lines, delimiter=delimiter, strict=True), 1):
        yield Row(number, tuple(read_cell(cell) for cell in cells))
