"""From HTML to PDF. No Django in here: a helping process loads this module alone.

WeasyPrint is imported when first needed: without Pango the rest of the program still runs.
"""

from __future__ import annotations

import atexit
import logging
from base64 import b64decode
from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final
from urllib.parse import unquote, urlsplit

if TYPE_CHECKING:
    from weasyprint import CSS
    from weasyprint.text.fonts import FontConfiguration
    from weasyprint.urls import URLFetcher, URLFetcherResponse

STATIC: Final = (Path(__file__).resolve().parent.parent.parent / "static").resolve()
STYLESHEET: Final = STATIC / "css" / "print.css"
PICTURE: Final = "data:image/png;base64,"

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


def to_pdf(documents: Sequence[str]) -> bytes:
    """Return the HTML documents as one tagged PDF, in their order. The same input gives the same bytes."""
    from weasyprint import HTML

    fonts, style = _face()
    laid_out: list[Any] = [
        HTML(string=document, base_url=STYLESHEET.as_uri(), url_fetcher=_fetcher()).render(
            font_config=fonts, stylesheets=[style]
        )
        for document in documents
    ]
    pages = [page for document in laid_out for page in document.pages]
    pdf: bytes = laid_out[0].copy(pages).write_pdf(pdf_variant="pdf/ua-1")
    return pdf
