from __future__ import annotations

from django.http import HttpResponse
from django.views.decorators.http import require_safe

from coachhub.base.actor import STAFF, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.desk.pages.calendar_dates import DatePage, MatchPage, find_dated, find_match
from coachhub.desk.pages.calendar_season import SeasonPage


@roles(STAFF)
@require_safe
def season(request: ActorRequest) -> HttpResponse:
    """A month or a week; a head coach finds matches and trainings in it."""
    page = SeasonPage.of(request.actor, request.GET)
    return render_page(request, "desk/calendar_season.html", page, partial="calendar")


@roles(STAFF)
@require_safe
def match(request: ActorRequest, pk: int) -> HttpResponse:
    page = MatchPage.of(request.actor, find_match(request.actor, pk))
    return render_page(request, "desk/calendar_match.html", page)


@roles(STAFF)
@require_safe
def dated(request: ActorRequest, area: str, pk: int, on: str) -> HttpResponse:
    """A day of a gym slot or a happening."""
    page = DatePage.of(request.actor, *find_dated(request.actor, area, pk, on))
    return render_page(request, "desk/calendar_date.html", page)
