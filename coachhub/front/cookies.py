"""The two cookies of a phone: the one that binds it, and the short one that carries a link's secret to a clean URL."""

from __future__ import annotations

from typing import Final

from django.conf import settings
from django.http import HttpRequest, HttpResponse

from coachhub.people.access import PHONE_COOKIE

LINK_COOKIE: Final = "__Host-coachhub_link" if settings.SESSION_COOKIE_SECURE else "coachhub_link"
PHONE_DAYS: Final = 400  # the longest that browsers keep a cookie
LINK_S: Final = 600


def set_phone(response: HttpResponse, token: str) -> None:
    put(response, PHONE_COOKIE, token, PHONE_DAYS * 24 * 3600)


def set_link(response: HttpResponse, token: str) -> None:
    put(response, LINK_COOKIE, token, LINK_S)


def link_of(request: HttpRequest) -> str:
    return request.COOKIES.get(LINK_COOKIE, "")


def forget_link(response: HttpResponse) -> None:
    put(response, LINK_COOKIE, "", 0)


def put(response: HttpResponse, name: str, value: str, max_age_s: int) -> None:
    response.set_cookie(
        name, value, max_age=max_age_s, secure=settings.SESSION_COOKIE_SECURE, httponly=True, samesite="Lax"
    )
