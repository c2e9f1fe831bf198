"""What a club may put beside an exercise: kinds of file, their limits, and how each is told by its first bytes."""

from __future__ import annotations

from dataclasses import dataclass
from tempfile import SpooledTemporaryFile
from typing import IO, TYPE_CHECKING, Final

if TYPE_CHECKING:
    from django.utils.functional import _StrPromise


PICTURE_BYTES: Final = 5 * 2**20
FILM_BYTES: Final = 30 * 2**20
# The form around a file takes a little as well.
UPLOAD_BYTES: Final = FILM_BYTES + 2**16
_IN_MEMORY: Final = 2**20

JPEG, PNG, WEBP, MP4 = "image/jpeg", "image/png", "image/webp", "video/mp4"
SUFFIXES: Final = {JPEG: "jpg", PNG: "png", WEBP: "webp", MP4: "mp4"}


class MediaError(Exception):
    """Why a file is refused, as one sentence for who sent it."""

    def __init__(self, sentence: _StrPromise | str) -> None:
        super().__init__(sentence)
        self.sentence = sentence


@dataclass(frozen=True, slots=True)
class CleanFile:
    """What is left of an upload: only pictures' points, a film's picture and sound. `content` stands at its start."""

    media_type: str
    content: IO[bytes]
    size: int

    @property
    def suffix(self) -> str:
        return SUFFIXES[self.media_type]

    @property
    def is_film(self) -> bool:
        return self.media_type == MP4


def media_type_of(head: bytes) -> str | None:
    """By the first bytes alone; neither the name nor what the browser says counts."""
    if head.startswith(b"\xff\xd8\xff"):
        return JPEG
    if head.startswith(b"\x89PNG\r\n\x1a\n"):
        return PNG
    if head.startswith(b"RIFF") and head[8:12] == b"WEBP":
        return WEBP
    return MP4 if head[4:8] == b"ftyp" else None


def room_for_a_file() -> IO[bytes]:
    """A file without a name, in memory while it is small; gone when it is closed."""
    return SpooledTemporaryFile(max_size=_IN_MEMORY)
