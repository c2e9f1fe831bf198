"""Takes everything out of an MP4 film but its picture and sound: place, time, maker, what a box of tags may hide.

An MP4 file is a row of boxes: four bytes of size, four letters of type, content, which for some types is boxes again.
Boxes are blanked where they stand, never cut out, since tables inside the film count bytes from its start.
Source: ISO/IEC 14496-12 (ISO base media file format), from memory.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from typing import IO, Final

from django.utils.translation import gettext_lazy as _

from coachhub.library.media_kinds import MP4, CleanFile, MediaError, room_for_a_file

# Brands that browsers play as MP4; a camera's QuickTime file ("qt  ") is another thing.
_BRANDS: Final = {b"isom", b"iso2", b"iso4", b"iso5", b"iso6", b"mp41", b"mp42", b"avc1", b"M4V ", b"MSNV"}
_AT_TOP: Final = {b"ftyp", b"moov", b"mdat", b"free", b"skip", b"wide", b"udta", b"meta", b"uuid"}
_HOLDERS: Final = {b"moov", b"trak", b"mdia", b"minf", b"edts", b"dinf"}
_BLANKED: Final = {b"udta", b"meta", b"uuid", b"free", b"skip", b"wide"}
_DATED: Final = {b"mvhd", b"tkhd", b"mdhd"}
_DATES_END: Final = 20
_TRACKS: Final = {b"vide", b"soun"}
_DEEPEST: Final = 6
_MOST_BOXES: Final = 2000
_ZEROES: Final = bytes(2**16)

_NO_FILM: Final = _("This film cannot be read; it is damaged, or no MP4.")


@dataclass(frozen=True, slots=True)
class Box:
    kind: bytes
    start: int
    body: int
    end: int


def clean_film(source: IO[bytes], size: int) -> CleanFile:
    """Return the film with picture and sound alone. MediaError says what is wrong."""
    boxes = _all_boxes(source, size)
    _check(source, boxes)
    target = room_for_a_file()
    source.seek(0)
    shutil.copyfileobj(source, target)
    for box in boxes:
        if box.kind in _BLANKED:
            _fill(target, box.start + 4, b"free", box.end - box.body, at=box.body)
        elif box.kind in _DATED:
            _undate(target, box)
    target.seek(0)
    return CleanFile(MP4, target, size)


def _all_boxes(source: IO[bytes], size: int) -> list[Box]:
    boxes: list[Box] = []
    for box in _walk(source, 0, size, 0):
        boxes.append(box)
        if len(boxes) > _MOST_BOXES:
            raise MediaError(_NO_FILM)
    return boxes


def _walk(source: IO[bytes], start: int, end: int, depth: int) -> Iterator[Box]:
    """Every box between two places, each before those inside it."""
    while start < end:
        box = _box_at(source, start, end)
        if depth == 0 and box.kind not in _AT_TOP:
            raise MediaError(_("This film holds more than a film, or comes in pieces; save it as a plain MP4."))
        yield box
        if box.kind in _HOLDERS:
            if depth == _DEEPEST:
                raise MediaError(_NO_FILM)
            yield from _walk(source, box.body, box.end, depth + 1)
        start = box.end


def _box_at(source: IO[bytes], start: int, end: int) -> Box:
    source.seek(start)
    head = source.read(8)
    length, body = int.from_bytes(head[:4], "big"), start + 8
    if length == 1:
        length, body = int.from_bytes(source.read(8), "big"), start + 16
    if length == 0:  # up to the end of the file
        length = end - start
    if len(head) < 8 or start + length < body or start + length > end:
        raise MediaError(_NO_FILM)
    return Box(head[4:8], start, body, start + length)


def _check(source: IO[bytes], boxes: list[Box]) -> None:
    kinds = [box.kind for box in boxes]
    is_short = any(box.end - box.body < _DATES_END for box in boxes if box.kind in _DATED)
    if kinds[:1] != [b"ftyp"] or kinds.count(b"moov") != 1 or b"mdat" not in kinds or is_short:
        raise MediaError(_NO_FILM)
    if _read(source, boxes[0].body, 4) not in _BRANDS:
        raise MediaError(_("This is no MP4 film; save it as MP4 (H.264) first."))
    tracks = {_read(source, box.body + 8, 4) for box in boxes if box.kind == b"hdlr"}
    if b"vide" not in tracks:
        raise MediaError(_("There is no picture in this film."))
    if tracks - _TRACKS:
        raise MediaError(_("This film carries data besides picture and sound, perhaps a place; save it without them."))


def _read(source: IO[bytes], place: int, count: int) -> bytes:
    source.seek(place)
    return source.read(count)


def _fill(target: IO[bytes], name_at: int, name: bytes, count: int, *, at: int) -> None:
    target.seek(name_at)
    target.write(name)
    target.seek(at)
    while count > 0:
        count -= target.write(_ZEROES[:count])


def _undate(target: IO[bytes], box: Box) -> None:
    """When it was made and changed: two times of four bytes after the version, of eight in version 1."""
    width = 8 if _read(target, box.body, 1) == b"\x01" else 4
    target.seek(box.body + 4)
    target.write(bytes(2 * width))
