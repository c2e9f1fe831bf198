"""QR codes of plain addresses; what opens there is behind enrolment."""

from __future__ import annotations

from base64 import b64encode
from functools import lru_cache
from io import BytesIO

import segno


@lru_cache(maxsize=1024)
def qr_png(address: str) -> str:
    """Return the code as a PNG in base 64, one pixel a module; the paper round it is its quiet zone."""
    out = BytesIO()
    segno.make(address, error="m", micro=False).save(out, kind="png", scale=1, border=0)
    return b64encode(out.getvalue()).decode()
