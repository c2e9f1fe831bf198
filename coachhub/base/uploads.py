"""Uploads stop being kept as soon as they are larger than a view takes."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import ParamSpec, cast

from django.core.files.uploadhandler import FileUploadHandler, SkipFile, load_handler
from django.http import HttpRequest, HttpResponse
from django.views.decorators.csrf import csrf_exempt, csrf_protect

from coachhub.base.actor import ActorRequest
from coachhub.base.gates import View

P = ParamSpec("P")


class CappedHandler(FileUploadHandler):
    """Lets a file through piece by piece until it is too large; the form then finds none, and says so."""

    def __init__(self, request: HttpRequest, most_bytes: int) -> None:
        super().__init__(request)
        self.most_bytes = most_bytes
        self.seen = 0

    def receive_data_chunk(self, raw_data: bytes, start: int) -> bytes:
        self.seen += len(raw_data)
        if self.seen > self.most_bytes:
            raise SkipFile
        return raw_data

    def file_complete(self, file_size: int) -> None:
        return None


def capped_uploads(most_bytes: int) -> Callable[[View[P]], View[P]]:
    """Set the limit before the body is read: the check against forgery reads it, so it comes after."""

    def decorate(view: View[P]) -> View[P]:
        @csrf_exempt
        @wraps(view)
        def inner(request: ActorRequest, *args: P.args, **kwargs: P.kwargs) -> HttpResponse:
            names = [
                "django.core.files.uploadhandler.MemoryFileUploadHandler",
                "django.core.files.uploadhandler.TemporaryFileUploadHandler",
            ]
            request.upload_handlers = [CappedHandler(request, most_bytes), *(load_handler(n, request) for n in names)]
            return csrf_protect(view)(request, *args, **kwargs)

        return cast("View[P]", inner)

    return decorate


def is_over(request: HttpRequest, most_bytes: int) -> bool:
    """Whether what was sent is larger than that."""
    return int(request.META.get("CONTENT_LENGTH") or 0) > most_bytes
