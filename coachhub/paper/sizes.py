"""Sizes of paper. The one chosen last is remembered where it was chosen: a printer stands at a desk, not at a squad."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from coachhub.paper.pdf import PLAIN, Setup

COOKIE: Final = "coachhub_paper"
_YEAR_S: Final = 366 * 24 * 3600
_LARGE: Final = Setup(zoom=1.1)
_TWO_UP: Final = Setup(is_two_up=True)


@dataclass(frozen=True, slots=True)
class Size:
    """`page_class` names the page in `print.css`; `sheet_class` the one that lists of the whole squad are set on."""

    code: str
    label: str | Promise
    page_class: str
    sheet_class: str
    setup: Setup = PLAIN


A5: Final = Size("a5", _("A5, one card to a page"), "", "a4")
SIZES: Final = {
    size.code: size
    for size in (
        A5,
        Size("a4-two", _("A4, two cards to a sheet, to be cut"), "half-a4", "a4", _TWO_UP),
        Size("a4", _("A4, one card to a page, larger print"), "a4", "a4", _LARGE),
        Size("half-letter", _("Half Letter, one card to a page"), "half-letter", "letter"),
        Size("letter-two", _("Letter, two cards to a sheet, to be cut"), "two-letter", "letter", _TWO_UP),
        Size("letter", _("Letter, one card to a page, larger print"), "letter", "letter", _LARGE),
    )
}


def remembered_size(request: HttpRequest) -> Size:
    return SIZES.get(request.COOKIES.get(COOKIE, ""), A5)


def remember_size(response: HttpResponse, size: Size) -> None:
    secure = bool(settings.SESSION_COOKIE_SECURE)
    response.set_cookie(COOKIE, size.code, max_age=_YEAR_S, secure=secure, httponly=True, samesite="Lax")
