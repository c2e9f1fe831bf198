"""Puts `request.actor` on every request, and makes the club's zone current."""

from __future__ import annotations

import zoneinfo
from collections.abc import Callable
from typing import Final, cast

from django.db import DEFAULT_DB_ALIAS
from django.http import HttpRequest, HttpResponse
from django.utils import timezone
from django.utils.functional import SimpleLazyObject

from coachhub.base.actor import Actor, ActorRequest
from coachhub.base.statements import Statement
from coachhub.people.access import PHONE_COOKIE, actor_for
from coachhub.people.models import Club

_COLUMNS: Final = ("id", "name", "unit", "time_zone", "accent", "is_demo")
_CLUB: Final = Statement(_COLUMNS, lambda: Club.objects.order_by("pk")[:1])


class ClubRequest(ActorRequest):
    """The request with the club it is for."""

    club: Club


class ActorMiddleware:
    """`request.actor` is looked up when first asked for: health checks and files touch no database."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        def find() -> Actor:
            if club.pk is not None:
                timezone.activate(zoneinfo.ZoneInfo(club.time_zone))
            return actor_for(request.user, request.COOKIES.get(PHONE_COOKIE, ""))

        club = cast(Club, SimpleLazyObject(current_club))
        cast(ClubRequest, request).club = club
        cast(ActorRequest, request).actor = cast(Actor, SimpleLazyObject(find))
        try:
            return self.get_response(request)
        finally:
            timezone.deactivate()


def current_club() -> Club:
    """The installation's club; one without a key before it is set up."""
    for row in _CLUB.rows():
        return Club.from_db(DEFAULT_DB_ALIAS, _COLUMNS, row)
    return Club(name="coachhub")
