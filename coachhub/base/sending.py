"""Gives out a stored file, in whole or, as players of films ask, in part."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import IO, Final, cast

from django.http import FileResponse, HttpRequest, HttpResponse, StreamingHttpResponse
from django.http.response import HttpResponseBase

_PIECE: Final = 2**16
_PART: Final = re.compile(r"bytes=(\d*)-(\d*)")


def send_file(request: HttpRequest, content: IO[bytes], *, media_type: str, size: int) -> HttpResponse:
    """`content` is closed when it is sent. Shown, never run: its type is fixed and the browser must not guess."""
    part = _part(request.headers.get("Range", ""), size)
    response: HttpResponseBase
    if part is None:
        response = FileResponse(content, content_type=media_type)
        response["Content-Length"] = str(size)
    elif not part:
        content.close()
        response = HttpResponse(status=416)
        response["Content-Range"] = f"bytes */{size}"
    else:
        response = StreamingHttpResponse(_pieces(content, part), status=206, content_type=media_type)
        response["Content-Length"] = str(len(part))
        response["Content-Range"] = f"bytes {part.start}-{part.stop - 1}/{size}"
    response["Accept-Ranges"] = "bytes"
    response["Content-Disposition"] = "inline"
    response["X-Content-Type-Options"] = "nosniff"
    response["Cache-Control"] = "private, max-age=3600"
    return cast(HttpResponse, response)  # what is streamed is none by its class, and is treated alike


def _pieces(content: IO[bytes], part: range) -> Iterator[bytes]:
    with content:
        content.seek(part.start)
        for start in range(part.start, part.stop, _PIECE):
            yield content.read(min(_PIECE, part.stop - start))


def _part(wanted: str, size: int) -> range | None:
    """The places asked for; None for the whole. Source: RFC 9110, section 14."""
    asked = _PART.fullmatch(wanted)
    if asked is None or asked.groups() == ("", ""):
        return None
    first, last = asked.groups()
    if not first:
        return range(max(0, size - int(last)), size)
    stop = min(size, int(last) + 1) if last else size
    return range(int(first), stop)
