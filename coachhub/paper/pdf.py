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
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Final
from urllib.parse import unquote, urlsplit

if TYPE_CHECKING:
    from weasyprint import CSS
    from weasyprint.document import Document, Page
    from weasyprint.text.fonts import FontConfiguration
    from weasyprint.urls import URLFetcher, URLFetcherResponse

STATIC: Final = (Path(__file__).resolve().parent.parent.parent / "static").resolve()
STYLES: Final = STATIC / "css"
STYLESHEET: Final = STYLES / "print.css"
PICTURE: Final = "data:image/png;base64,"
VARIANT: Final = "pdf/ua-1"


@dataclass(frozen=True, slots=True)
class Setup:
    """How a document is put on paper: pages drawn larger by `zoom`; `is_two_up`, two of them beside each other."""

    stylesheet: str = STYLESHEET.name
    zoom: float = 1
    is_two_up: bool = False


PLAIN: Final = Setup()

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
def _face(stylesheet: str) -> tuple[FontConfiguration, CSS]:
    """The font and a stylesheet, read once a process."""
    from weasyprint import CSS
    from weasyprint.text.fonts import FontConfiguration

    fonts, path = FontConfiguration(), STYLES / stylesheet
    return fonts, CSS(string=path.read_text("utf-8"), base_url=path.as_uri(), url_fetcher=_fetcher(), font_config=fonts)


# The font must go before the interpreter takes the libraries away that it needs for going.
atexit.register(_face.cache_clear)


def lay_out(html: str, setup: Setup = PLAIN) -> Document:
    """Return the pages of one HTML document."""
    from weasyprint import HTML

    fonts, style = _face(setup.stylesheet)
    source = HTML(string=html, base_url=STYLESHEET.as_uri(), url_fetcher=_fetcher())
    document = source.render(font_config=fonts, stylesheets=[style])
    if not setup.is_two_up:
        return document
    pages = document.pages
    return document.copy([_sheet(pages[place : place + 2]) for place in range(0, len(pages), 2)])


def _sheet(pages: list[Page]) -> Page:
    """Two pages beside each other as one, twice as wide; the last one may stand alone.

    Done with the boxes as laid out, so that tags, bookmarks and fonts are made as for any page.
    """
    from weasyprint.document import Page
    from weasyprint.layout.background import layout_backgrounds

    left, *rest = (page._page_box for page in pages)  # noqa: SLF001  # there is no other way to the boxes
    width = left.margin_width()
    for right in rest:
        right.translate(dx=width)
        layout_backgrounds(right, None)
        left.children = [*left.children, *right.children]
    left.width += width
    return Page(left)


def to_pdf(html: str, setup: Setup = PLAIN) -> bytes:
    """Return one HTML document as a tagged PDF. The same input gives the same bytes."""
    with uncollected():
        pdf: bytes = lay_out(html, setup).write_pdf(pdf_variant=VARIANT, zoom=setup.zoom)
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
