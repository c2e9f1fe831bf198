"""What a calendar program reads by its secret address."""

from __future__ import annotations

from typing import cast

from django.http import Http404, HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from coachhub.base.clock import today
from coachhub.base.gates import open_to_all
from coachhub.people.middleware import ClubRequest
from coachhub.season.feed import feed_file
from coachhub.season.queries import feed_of


@open_to_all
@require_safe
def feed(request: HttpRequest, token: str) -> HttpResponse:
    """Whoever holds the address reads these dates and nothing else; taken back, it is as if it had never been."""
    link = feed_of(token)
    if link is None:
        raise Http404
    club = cast(ClubRequest, request).club
    response = HttpResponse(
        feed_file(link, club.time_zone, today(), club.name), content_type="text/calendar; charset=utf-8"
    )
    response["Content-Disposition"] = 'inline; filename="calendar.ics"'
    response["Cache-Control"] = "private, no-cache"
    response["Referrer-Policy"] = "no-referrer"
    response["X-Robots-Tag"] = "noindex, nofollow"
    return response
