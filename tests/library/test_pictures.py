"""A picture is told by its content, drawn anew without a word about where it was taken, or refused."""

from __future__ import annotations

import io
import tracemalloc

import pytest
from PIL import Image, ImageFile

from coachhub.library.forms_media import FileForm, cleaned
from coachhub.library.media_kinds import PICTURE_BYTES, CleanFile, MediaError, media_type_of
from tests.library.uploads import picture, png_that_unpacks_to, tagged, upload

SVG = b'<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>'
ELSE = "Only JPEG, PNG and WebP pictures and MP4 films are taken; this is something else."
BOTH = "This file is a picture and something else at once; it is refused."
BROKEN = "This picture cannot be read; it is damaged, or no picture."
POINTS = "This picture has too many points: 16 million at most in a JPEG, 5 million in others."


def clean(data: bytes) -> CleanFile:
    return cleaned(upload(data))


def drawn(data: bytes) -> tuple[Image.Image, bytes]:
    file = clean(data)
    kept = file.content.read()
    assert len(kept) == file.size
    return Image.open(io.BytesIO(kept)), kept


def refusal(data: bytes) -> str:
    with pytest.raises(MediaError) as caught:
        clean(data)
    return str(caught.value)


@pytest.mark.parametrize(("name", "media_type"), [("JPEG", "image/jpeg"), ("PNG", "image/png"), ("WEBP", "image/webp")])
def test_type_is_told_by_the_content_whatever_the_name(name: str, media_type: str) -> None:
    file = cleaned(upload(picture(name), "holiday.txt", "text/html"))

    assert (file.media_type, file.is_film, media_type_of(file.content.read(16))) == (media_type, False, media_type)


@pytest.mark.parametrize("name", ["JPEG", "PNG", "WEBP"])
def test_place_and_camera_are_gone(name: str) -> None:
    sent = tagged(name)
    image, kept = drawn(sent)

    assert (b"Camera of Ingrid" in sent, b"Camera of Ingrid" in kept) == (True, False)
    assert (dict(image.getexif()), [key for key in image.info if key in {"exif", "xmp", "icc_profile"}]) == ({}, [])


def test_picture_taken_on_its_side_stands_upright() -> None:
    assert drawn(tagged("JPEG", orientation=6))[0].size == (20, 40)


def test_long_side_is_brought_to_1600_points() -> None:
    assert drawn(picture("JPEG", size=(4000, 3000)))[0].size == (1600, 1200)


@pytest.mark.parametrize("name", ["PNG", "WEBP"])
def test_holes_stay_holes(name: str) -> None:
    image, _ = drawn(picture(name, mode="RGBA"))

    assert image.mode == "RGBA"


@pytest.mark.parametrize("mode", ["L", "CMYK", "1", "I;16", "P", "LA"])
def test_other_ways_of_colour_become_plain(mode: str) -> None:
    name = "JPEG" if mode == "CMYK" else "PNG"

    assert drawn(picture(name, mode=mode) if mode != "I;16" else _deep())[0].mode in {"RGB", "RGBA"}


def _deep() -> bytes:
    target = io.BytesIO()
    Image.new("I;16", (40, 20)).save(target, format="PNG")
    return target.getvalue()


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (SVG, ELSE),
        (b"", ELSE),
        (b"GIF89a" + bytes(40), ELSE),
        (b"PK\x03\x04" + bytes(40), ELSE),
        (b"%PDF-1.7 " + picture(), ELSE),
        (picture() + b"<html><script>alert(1)</script>", BOTH),
        (picture("PNG") + SVG, BOTH),
        (picture("WEBP") + b"PK\x05\x06" + bytes(18), BOTH),
        (picture(comment=b"<?php system($_GET[0]) ?>"), BOTH),
        (b"\xff\xd8\xff" + SVG[5:], BOTH),
        (b"\xff\xd8\xff" + bytes(2000), BROKEN),
        (picture("PNG")[:60], BROKEN),
        (picture("JPEG", size=(900, 900))[:700], BROKEN),
        (b"RIFF\x10\x00\x00\x00WEBPVP8 " + bytes(20), BROKEN),
        (png_that_unpacks_to(8000, 4000), POINTS),
    ],
)
def test_hostile_file_is_refused(data: bytes, sentence: str) -> None:
    assert refusal(data) == sentence


def test_half_a_file_is_refused_after_something_was_printed(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(ImageFile, "LOAD_TRUNCATED_IMAGES", True)
    assert refusal(picture("JPEG", size=(900, 900))[:700]) == BROKEN


def test_bomb_is_refused_before_it_is_unpacked() -> None:
    bomb = png_that_unpacks_to(20_000, 20_000)
    tracemalloc.start()
    try:
        assert refusal(bomb) in {POINTS, BROKEN}
        peak = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()

    assert (len(bomb) < 100_000, peak < 10_000_000) == (True, True)


def test_what_follows_a_picture_does_not_come_along() -> None:
    film_after = b"\x00\x00\x00\x18ftypmp42" + b"moving" * 50

    assert b"moving" not in drawn(picture() + film_after)[1]


def test_picture_over_five_megabytes_is_refused() -> None:
    assert refusal(picture() + bytes(PICTURE_BYTES)) == "Too large: 5 MB for a picture and 30 MB for a film at most."


def test_form_says_the_reason_beside_the_file_and_keeps_the_words() -> None:
    form = FileForm({"shows": "The deepest point"}, {"file": upload(SVG, "x.svg", "image/svg+xml")})

    assert form.errors == {"file": [ELSE]}
    assert form["shows"].value() == "The deepest point"


def test_form_of_an_upload_that_was_cut_off_says_it_was_too_large() -> None:
    form = FileForm({"shows": "x"}, {}, is_over=True)

    assert form.errors == {"file": ["Too large: 5 MB for a picture and 30 MB for a film at most."]}
