"""Gives out a table as a file, as long as it may be."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, cast

from django.http import HttpResponse, StreamingHttpResponse

from coachhub.base.tables import Lines, csv_stream, xlsx_file

_PIECE: Final = 2**16
_TYPES: Final = {
    "csv": "text/csv; charset=utf-8",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}


def send_table(lines: Lines, *, name: str, form: str) -> HttpResponse:
    """`form` is csv or xlsx; `name` goes before the dot and is plain ASCII. A CSV leaves while it is written."""
    pieces = csv_stream(lines) if form == "csv" else _workbook(lines, name)
    response = StreamingHttpResponse(pieces, content_type=_TYPES[form])
    response["Content-Disposition"] = f'attachment; filename="{name}.{form}"'
    response["Cache-Control"] = "private, no-store"
    return cast(HttpResponse, response)  # what is streamed is none by its class, and is treated alike


def _workbook(lines: Lines, title: str) -> Iterator[bytes]:
    with xlsx_file(lines, title) as file:
        while piece := file.read(_PIECE):
            yield piece
