"""Files as people send them, honest and hostile, made by hand."""

from __future__ import annotations

import io
import struct
import zlib
from typing import Any

from django.core.files.uploadedfile import SimpleUploadedFile
from PIL import Image

from coachhub.base.actor import Actor, ActorKind
from coachhub.library.actions_media import put_file
from coachhub.library.forms_media import cleaned
from coachhub.library.models import Exercise, ExerciseFile

PLACE = b"+47.1234+008.5678/"


def picture(name: str = "JPEG", size: tuple[int, int] = (40, 20), mode: str = "RGB", **saving: Any) -> bytes:
    target = io.BytesIO()
    Image.new(mode, size, (200, 0, 0, 80) if mode == "RGBA" else "red").save(target, format=name, **saving)
    return target.getvalue()


def tagged(name: str = "JPEG", orientation: int = 1) -> bytes:
    """A picture that tells where it was taken, and by what."""
    exif = Image.Exif()
    exif[0x0112], exif[0x010F] = orientation, "Camera of Ingrid"
    exif[0x8825] = {1: "N", 2: (47.0, 7.0, 24.0)}
    return picture(name, exif=exif)


def png_that_unpacks_to(width: int, height: int) -> bytes:
    """A few kilobytes that claim, and hold, that many points."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    header = struct.pack(">IIBBBBB", width, height, 1, 0, 0, 0, 0)
    packer = zlib.compressobj(9)
    row = bytes(1 + (width + 7) // 8)
    packed = b"".join(packer.compress(row) for _ in range(height)) + packer.flush()
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", packed) + chunk(b"IEND", b"")


def box(kind: bytes, *parts: bytes) -> bytes:
    body = b"".join(parts)
    return struct.pack(">I", 8 + len(body)) + kind + body


def track(handler: bytes, *more: bytes) -> bytes:
    dated = bytes(4) + struct.pack(">II", 3_900_000_000, 3_900_000_001) + bytes(12)
    return box(b"trak", box(b"tkhd", dated), box(b"mdia", box(b"mdhd", dated), hdlr(handler)), *more)


def hdlr(handler: bytes) -> bytes:
    return box(b"hdlr", bytes(8), handler, bytes(13))


def film(*more: bytes, brand: bytes = b"isom", handlers: tuple[bytes, ...] = (b"vide", b"soun")) -> bytes:
    """An MP4 in its outlines: place in the tags of film and track, a date in each header, `more` after it."""
    dated = bytes(4) + struct.pack(">II", 3_900_000_000, 3_900_000_001) + bytes(80)
    tags = box(b"udta", box(b"\xa9xyz", PLACE))
    tracks = [track(handler, box(b"meta", PLACE)) for handler in handlers]
    moov = box(b"moov", box(b"mvhd", dated), *tracks, tags)
    return b"".join([box(b"ftyp", brand, bytes(4), brand), moov, box(b"mdat", b"picture and sound"), *more])


def upload(data: bytes, name: str = "x.jpg", said: str = "image/jpeg") -> SimpleUploadedFile:
    return SimpleUploadedFile(name, data, said)


def put_picture(exercise: Exercise, data: bytes | None = None) -> ExerciseFile:
    file = cleaned(upload(data or picture("PNG")))
    return put_file(actor=Actor(ActorKind.COACH), exercise=exercise, file=file, shows="The deepest point")
