"""From HTML to PDF. No Django in here: a helping process loads this module alone.

WeasyPrint is imported when first needed: without Pango the rest of the program still runs.
"""

from __future__ import annotations

import atexit
import gc
import logging
from base64 import b64decode
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Final
from urllib.parse import unquote, urlsplit

if TYPE_CHECKING:
    from weasyprint import CSS
    from weasyprint.document import Document
    from weasyprint.text.fonts import FontConfiguration
    from weasyprint.urls import URLFetcher, URLFetcherResponse

STATIC: Final = (Path(__file__).resolve().parent.parent.parent / "static").resolve()
STYLESHEET: Final = STATIC / "css" / "print.css"
PICTURE: Final = "data:image/png;base64,"
VARIANT: Final = "pdf/ua-1"

# It would tell of every page it lays out.
logging.getLogger("weasyprint.progress").setLevel(logging.WARNING)


class OutsideError(ValueError):
    """A document asked for something that is not one of our own static files."""


def own_file(url: str) -> Path:
    """Return the file in `static/` that the address names; OutsideError for anything else."""
    parts = urlsplit(url)
    path = Path(unquote(parts.path)).resolve()
    if parts.scheme != "file" or parts.netloc or not path.is_relative_to(STATIC) or not path.is_file():
        raise OutsideError(f"only files of this program are printed, not {url!r}")
    return path


def contents(url: str) -> bytes:
    """What a document may reach: our own files, and pictures that stand in the document itself."""
    if url.startswith(PICTURE):
        return b64decode(url.removeprefix(PICTURE), validate=True)
    return own_file(url).read_bytes()


@cache
def _fetcher() -> URLFetcher:
    """WeasyPrint's only way to anything outside the document."""
    from weasyprint.urls import URLFetcher, URLFetcherResponse

    class OwnFiles(URLFetcher):  # type: ignore[misc]
        def fetch(self, url: str, headers: object = None) -> URLFetcherResponse:
            return URLFetcherResponse(url, contents(url))

    return OwnFiles(allow_redirects=False)


@cache
def _face() -> tuple[FontConfiguration, CSS]:
    """The font and the stylesheet, read once a process."""
    from weasyprint import CSS
    from weasyprint.text.fonts import FontConfiguration

    fonts = FontConfiguration()
    return fonts, CSS(
        string=STYLESHEET.read_text("utf-8"), base_url=STYLESHEET.as_uri(), url_fetcher=_fetcher(), font_config=fonts
    )


# The font must go before the interpreter takes the libraries away that it needs for going.
atexit.register(_face.cache_clear)


def lay_out(html: str) -> Document:
    """Return the pages of one HTML document."""
    from weasyprint import HTML

    fonts, style = _face()
    source = HTML(string=html, base_url=STYLESHEET.as_uri(), url_fetcher=_fetcher())
    return source.render(font_config=fonts, stylesheets=[style])


def to_pdf(html: str) -> bytes:
    """Return one HTML document as a tagged PDF. The same input gives the same bytes."""
    with uncollected():
        pdf: bytes = lay_out(html).write_pdf(pdf_variant=VARIANT)
        return pdf


@contextmanager
def uncollected() -> Iterator[None]:
    """Laying out makes millions of objects that live to its end: looking through them for rubbish costs a third."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()
