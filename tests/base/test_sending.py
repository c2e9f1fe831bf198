"""A stored file is given out whole or in the part asked for, and never guessed at."""

from __future__ import annotations

import io

import pytest
from django.http import HttpResponse
from django.test import RequestFactory

from coachhub.base.sending import send_file


def sent(part: str = "") -> tuple[HttpResponse, bytes]:
    request = RequestFactory().get("/", headers={"Range": part} if part else {})
    response = send_file(request, io.BytesIO(b"0123456789"), media_type="video/mp4", size=10)
    return response, response.getvalue()


def test_whole_file_with_its_safe_headers() -> None:
    response, body = sent()

    assert (response.status_code, body) == (200, b"0123456789")
    wanted = {
        "Content-Type": "video/mp4",
        "Content-Length": "10",
        "Content-Disposition": "inline",
        "X-Content-Type-Options": "nosniff",
        "Accept-Ranges": "bytes",
        "Cache-Control": "private, max-age=3600",
    }
    assert {name: response.headers.get(name) for name in wanted} == wanted


@pytest.mark.parametrize(
    ("part", "body", "says"),
    [
        ("bytes=0-", b"0123456789", "bytes 0-9/10"),
        ("bytes=2-4", b"234", "bytes 2-4/10"),
        ("bytes=8-99", b"89", "bytes 8-9/10"),
        ("bytes=-3", b"789", "bytes 7-9/10"),
        ("bytes=-99", b"0123456789", "bytes 0-9/10"),
    ],
)
def test_part_of_a_file(part: str, body: bytes, says: str) -> None:
    response, got = sent(part)

    assert (response.status_code, got, response["Content-Range"]) == (206, body, says)
    assert response["Content-Length"] == str(len(body))


@pytest.mark.parametrize("part", ["bytes=10-", "bytes=5-2", "bytes=-0"])
def test_part_that_is_not_there(part: str) -> None:
    response, got = sent(part)

    assert (response.status_code, got, response["Content-Range"]) == (416, b"", "bytes */10")


@pytest.mark.parametrize("part", ["bytes=-", "bytes=0-1,4-5", "lines=1-2", "x"])
def test_part_that_is_not_understood_gives_the_whole(part: str) -> None:
    assert sent(part)[1] == b"0123456789"
