"""Draws an uploaded picture anew: nothing but its points is left, no place, no camera, no second file inside."""

from __future__ import annotations

import io
import struct
import warnings
import zlib
from typing import Final

from django.utils.translation import gettext_lazy as _
from PIL import Image, ImageFile, ImageOps

from coachhub.library.media_kinds import JPEG, PNG, WEBP, CleanFile, MediaError

FORMATS: Final = {JPEG: "JPEG", PNG: "PNG", WEBP: "WEBP"}
# A JPEG is read at reduced size; the others unpack whole, several times over, with four bytes a point.
MOST_POINTS: Final = {JPEG: 15_000_000, PNG: 5_000_000, WEBP: 5_000_000}
LONGEST_SIDE: Final = 1600
# Signs of a second nature. Drawn anew nothing of it would be left, but who sends this means no good.
_SIGNS: Final = (b"<script", b"<?php", b"<html", b"<svg", b"%pdf-", b"pk\x05\x06\x00\x00\x00\x00")
# What Pillow raises for files made to break it.
_BROKEN: Final = (
    OSError,
    ValueError,
    ArithmeticError,
    LookupError,
    SyntaxError,
    TypeError,
    EOFError,
    struct.error,
    zlib.error,
    Warning,
    Image.DecompressionBombError,
)


def clean_picture(data: bytes, media_type: str) -> CleanFile:
    """Return the picture upright, at most 1600 points long, in its own format. MediaError says what is wrong."""
    small = data.lower()
    if any(sign in small for sign in _SIGNS):
        raise MediaError(_("This file is a picture and something else at once; it is refused."))
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            return _drawn_anew(data, media_type)
    except _BROKEN as error:
        raise MediaError(_("This picture cannot be read; it is damaged, or no picture.")) from error


def _drawn_anew(data: bytes, media_type: str) -> CleanFile:
    # The library that prints lets half files pass, for the whole process, as soon as it is imported.
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    name = FORMATS[media_type]
    with Image.open(io.BytesIO(data), formats=[name]) as opened:
        if opened.width * opened.height > MOST_POINTS[media_type]:
            raise MediaError(_("This picture has too many points: 16 million at most in a JPEG, 5 million in others."))
        opened.draft("RGB", (LONGEST_SIDE, LONGEST_SIDE))
        ImageOps.exif_transpose(opened, in_place=True)
        opened.thumbnail((LONGEST_SIDE, LONGEST_SIDE), reducing_gap=2)
        has_holes = media_type != JPEG and opened.has_transparency_data
        points = opened.convert("RGBA" if has_holes else "RGB")
    bare = Image.new(points.mode, points.size)
    bare.paste(points)
    target = io.BytesIO()
    bare.save(target, format=name, quality=85)
    size = target.tell()
    target.seek(0)
    return CleanFile(media_type, target, size)
