"""Files that nobody should be able to hurt the club with, built byte by byte; and plain ones to compare with."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterable, Sequence
from itertools import pairwise
from zipfile import ZIP_DEFLATED, ZipFile

from openpyxl import Workbook

from coachhub.base.tables import csv_bytes, xlsx_bytes

HEADER = ["given name", "family name", "date of birth"]
PERSON = ["Runa", "Beck", "2012-04-30"]
MEGABYTE = 1024 * 1024
SHEET = "xl/worksheets/sheet1.xml"


def people(count: int) -> list[list[str]]:
    return [HEADER, *([f"Runa {i}", "Beck", "2012-04-30"] for i in range(count))]


def workbook(lines: Iterable[Sequence[object]]) -> bytes:
    """As a person makes it: cells may be numbers, days and formulas."""
    book = Workbook()
    sheet = book.active
    for line in lines:
        sheet.append(list(line))
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()


def repacked(content: bytes, replaced: dict[str, bytes]) -> bytes:
    """The same zip with some of its parts exchanged or added."""
    file = io.BytesIO()
    with ZipFile(io.BytesIO(content)) as old, ZipFile(file, "w", ZIP_DEFLATED) as new:
        parts = {name: old.read(name) for name in old.namelist()} | replaced
        for name, data in parts.items():
            new.writestr(name, data)
    return file.getvalue()


def part_of(content: bytes, name: str) -> bytes:
    with ZipFile(io.BytesIO(content)) as archive:
        return archive.read(name)


def other_zip() -> bytes:
    file = io.BytesIO()
    with ZipFile(file, "w") as archive:
        archive.writestr("content.xml", "<a/>")
    return file.getvalue()


def workbook_with_row(number: int) -> bytes:
    """A filled row, and one more far below."""
    row = b'<row r="%d"><c r="A%d" t="inlineStr"><is><t>a</t></is></c><c t="inlineStr"><is><t>b</t></is></c></row>'
    start = b'<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>'
    sheet = start + row % (1, 1) + row % (number, number) + b"</sheetData></worksheet>"
    return repacked(xlsx_bytes(people(1), "x"), {SHEET: sheet})


def zip_bomb() -> bytes:
    """A sheet of 60 MB of spaces, in 60 kB."""
    return repacked(xlsx_bytes(people(1), "x"), {SHEET: b" " * (60 * MEGABYTE)})


def lying_zip_bomb() -> bytes:
    """The same, but its directory says that the part unpacks to a hundred bytes."""
    content = bytearray(repacked(xlsx_bytes(people(1), "x"), {SHEET: b" " * (20 * MEGABYTE)}))
    size = (20 * MEGABYTE).to_bytes(4, "little")
    while (at := content.find(size)) >= 0:
        content[at : at + 4] = (100).to_bytes(4, "little")
    return bytes(content)


def many_lols() -> bytes:
    """An entity that would unfold to a billion words."""
    names = [f"l{i}" for i in range(10)]
    entities = [b'<!ENTITY l0 "lol">']
    entities += [f'<!ENTITY {b} "{f"&{a};" * 10}">'.encode() for a, b in pairwise(names)]
    bomb = b'<?xml version="1.0"?><!DOCTYPE z [%s]><worksheet><sheetData>&l9;</sheetData></worksheet>'
    return repacked(xlsx_bytes(people(1), "x"), {SHEET: bomb % b"".join(entities)})


def many_lols_in_utf_16() -> bytes:
    """The same behind an encoding in which no search for letters finds it."""
    text = part_of(many_lols(), SHEET).decode().replace('version="1.0"', 'version="1.0" encoding="utf-16"')
    return repacked(xlsx_bytes(people(1), "x"), {SHEET: text.encode("utf-16")})


def many_tags() -> bytes:
    junk = b"<worksheet><sheetData>" + b"<a/>" * 2_000_000 + b"</sheetData></worksheet>"
    return repacked(xlsx_bytes(people(1), "x"), {SHEET: junk})


def many_formats() -> bytes:
    formats = b"".join(b'<xf numFmtId="%d"/>' % i for i in range(60_000))
    return repacked(xlsx_bytes(people(1), "x"), {"xl/styles.xml": b"<styleSheet>" + formats + b"</styleSheet>"})


EMPTY = "The file is empty."
NO_TEXT = "This is no table of text. Save it as “CSV UTF-8”, or as .xlsx."
QUOTES = "A quotation mark in the file is never closed, or a cell is far too long. Save it as CSV anew."
ROWS = "The file has more than 5,000 rows. Split it; delete empty rows below the table."
UNPACKED = "Unpacked, the file is larger than 25 MB or too intricate. Keep only the table."
DAMAGED = "This spreadsheet is damaged or has a password. Save it anew as .xlsx, or as CSV."
DEFINITIONS = "The file holds definitions that no spreadsheet writes. It was not read."

# What it is: how it is made, and what is said of it.
HOSTILE: dict[str, tuple[Callable[[], bytes], str]] = {
    "nothing": (lambda: b"", EMPTY),
    "white space": (lambda: b"  \r\n \n", EMPTY),
    "a header alone": (lambda: csv_bytes([HEADER]), "The file has a header, and no row below it."),
    "one column": (
        lambda: b"just a line of prose\nand another\n",
        "The file has only one column. Columns are parted by a comma, a semicolon or a tab.",
    ),
    "10 MB and a byte": (lambda: b"a,b\n" + b"x" * (10 * MEGABYTE - 3), "The file is larger than 10 MB."),
    "10,000 rows of CSV": (lambda: csv_bytes(people(10_000)), ROWS),
    "10,000 rows of XLSX": (lambda: xlsx_bytes(people(10_000), "x"), ROWS),
    "a row far below": (lambda: workbook_with_row(1_048_576), ROWS),
    "a picture": (lambda: b"\x89PNG\r\n\x1a\n" + bytes(range(256)), NO_TEXT),
    "a PDF": (lambda: b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n" + bytes(range(256)), NO_TEXT),
    "UTF-16 without its mark": (lambda: "a,b\nc,d\n".encode("utf-16-le"), NO_TEXT),
    "half of UTF-16": (lambda: b"\xff\xfea\x00,\x00b", NO_TEXT),
    "a byte of no encoding": (lambda: b"a,b\nc,\x81\n", NO_TEXT),
    "an open quotation mark": (lambda: b'a,b\n"c,d\ne,f\n', QUOTES),
    "a cell of 200,000 letters": (lambda: b"a,b\n" + b"x" * 200_000 + b",d\n", QUOTES),
    "a cell of 3,000 letters": (
        lambda: b"a,b\n" + b"x" * 3_000 + b",d\n",
        "A cell in row 2 has more than 2,000 letters. Please shorten it.",
    ),
    "a line of a megabyte": (
        lambda: b"a,b\n" + b"," * MEGABYTE + b"\n",
        "A line of the file is far too long for a table.",
    ),
    "70 columns": (
        lambda: b",".join(b"h%d" % i for i in range(70)) + b"\nc,d\n",
        "The file has more than 60 columns. Keep those that are needed.",
    ),
    "an old spreadsheet": (
        lambda: b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\x00" * 500,
        "This is an old spreadsheet (.xls), or one with a password. Save it as .xlsx without one, or as CSV.",
    ),
    "a broken zip": (lambda: b"PK\x03\x04" + b"\x00" * 40, DAMAGED),
    "a cut-off workbook": (lambda: xlsx_bytes(people(3), "x")[:-200], DAMAGED),
    "a workbook with a broken sheet": (
        lambda: repacked(xlsx_bytes(people(1), "x"), {SHEET: b"<worksheet><sheetData><row>"}),
        DAMAGED,
    ),
    "another kind of zip": (
        other_zip,
        "This zip file is no .xlsx spreadsheet. Save the table as .xlsx or as CSV.",
    ),
    "a zip bomb": (zip_bomb, UNPACKED),
    "a zip bomb with a lying directory": (lying_zip_bomb, DAMAGED),
    "2,000 parts": (
        lambda: repacked(xlsx_bytes(people(1), "x"), {f"xl/media/{i}.txt": b"" for i in range(2_000)}),
        UNPACKED,
    ),
    "a billion lols": (many_lols, DEFINITIONS),
    "a billion lols in UTF-16": (many_lols_in_utf_16, DAMAGED),
    "two million tags": (many_tags, UNPACKED),
    "60,000 formats": (many_formats, UNPACKED),
}
