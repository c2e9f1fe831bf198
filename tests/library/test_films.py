"""A film keeps its picture and sound to the byte, and nothing that tells where, when or by whom it was taken."""

from __future__ import annotations

import struct

import pytest

from coachhub.library.forms_media import cleaned
from coachhub.library.media_kinds import MP4, MediaError
from tests.library.uploads import PLACE, box, film, hdlr, upload

UNREADABLE = "This film cannot be read; it is damaged, or no MP4."
MORE = "This film holds more than a film, or comes in pieces; save it as a plain MP4."
DATED = struct.pack(">I", 3_900_000_000)


def clean(data: bytes) -> bytes:
    file = cleaned(upload(data, "film.mp4", "video/mp4"))
    with file.content as content:
        kept = content.read()
    assert (file.media_type, file.is_film, file.size) == (MP4, True, len(kept))
    return kept


def refusal(data: bytes) -> str:
    with pytest.raises(MediaError) as caught:
        clean(data)
    return str(caught.value)


def test_place_and_dates_are_blanked_and_nothing_moves() -> None:
    sent = film()
    kept = clean(sent)

    assert (sent.count(PLACE), kept.count(PLACE), sent.count(DATED), kept.count(DATED)) == (3, 0, 5, 0)
    assert (len(kept), kept.index(b"mdat"), kept[-17:]) == (len(sent), sent.index(b"mdat"), b"picture and sound")


def test_only_tags_and_dates_differ() -> None:
    sent = film()
    changed = {n for n, (before, after) in enumerate(zip(sent, clean(sent), strict=True)) if before != after}
    tags = [n for n in range(len(sent)) if sent[n : n + 4] in {b"udta", b"meta"}]
    headers = [n for n in range(len(sent)) if sent[n : n + 4] in {b"mvhd", b"tkhd", b"mdhd"}]
    allowed = {n + k for n in headers for k in range(8, 16)}
    allowed |= {n + k for n in tags for k in range(struct.unpack(">I", sent[n - 4 : n])[0] - 4)}

    assert changed <= allowed


def test_long_dates_of_version_one_are_blanked() -> None:
    long_dated = box(b"mvhd", b"\x01\x00\x00\x00", struct.pack(">QQ", 3_900_000_000, 3_900_000_000), bytes(90))
    moov = box(b"moov", long_dated, box(b"trak", box(b"mdia", hdlr(b"vide"))))
    sent = box(b"ftyp", b"mp42", bytes(4)) + moov + box(b"mdat", b"points")

    assert clean(sent).count(DATED) == 0


@pytest.mark.parametrize("kind", [b"free", b"skip", b"uuid", b"udta", b"meta"])
def test_box_of_tags_at_the_end_is_blanked(kind: bytes) -> None:
    assert PLACE not in clean(film(box(kind, PLACE * 9000)))


def test_box_with_a_long_size_and_one_up_to_the_end_are_understood() -> None:
    long = struct.pack(">I", 1) + b"free" + struct.pack(">Q", 16 + len(PLACE)) + PLACE
    open_end = struct.pack(">I", 0) + b"mdat" + b"more points"
    kept = clean(film(long, open_end))

    assert (PLACE in kept, kept.endswith(b"more points")) == (False, True)


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (film(box(b"moof", bytes(8))), MORE),
        (film(b"<html><script>alert(1)</script></html>"), UNREADABLE),
        (film(box(b"html", b"<script>alert(1)</script>")), MORE),
        (film(b"PK\x03\x04"), UNREADABLE),
        (film()[:-5], UNREADABLE),
        (b"\x00\x00\x00\x14ftypisom" + bytes(8), UNREADABLE),
        (box(b"ftyp", b"isom") + box(b"mdat", b"x"), UNREADABLE),
        (film() + film(), UNREADABLE),
        (film(box(b"free", b"")[:4] + b"fre"), UNREADABLE),
        (film(struct.pack(">I", 4) + b"free"), UNREADABLE),
        (box(b"ftyp", b"isom") + box(b"moov", box(b"mvhd", bytes(19))) + box(b"mdat"), UNREADABLE),
        (film(brand=b"qt  "), "This is no MP4 film; save it as MP4 (H.264) first."),
        (film(handlers=(b"soun",)), "There is no picture in this film."),
        (
            film(handlers=(b"vide", b"meta")),
            "This film carries data besides picture and sound, perhaps a place; save it without them.",
        ),
        (film(*[box(b"free")] * 2001), UNREADABLE),
    ],
)
def test_hostile_film_is_refused(data: bytes, sentence: str) -> None:
    assert refusal(data) == sentence


def test_boxes_inside_boxes_without_end_are_refused() -> None:
    nest = b""
    for _ in range(500):
        nest = box(b"trak", nest)

    assert refusal(box(b"ftyp", b"isom") + box(b"moov", nest) + box(b"mdat")) == UNREADABLE
