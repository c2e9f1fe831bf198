"""The lists of own activation work, and what a typed dose comes to."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from coachhub.base.actor import READERS, WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.desk.pages.athletes import find_athlete
from coachhub.desk.pages.own import OwnPage, squads_of
from coachhub.desk.pages.squads import find_squad
from coachhub.plans.reading import read_own_dose


@roles(READERS)
@require_safe
def own_athlete(request: ActorRequest, pk: int) -> HttpResponse:
    athlete = find_athlete(request.actor, pk)
    return render_page(request, "desk/own.html", OwnPage.of_athlete(request.actor, athlete, squads_of(athlete)))


@roles(READERS)
@require_safe
def own_squad(request: ActorRequest, pk: int) -> HttpResponse:
    return render_page(request, "desk/own.html", OwnPage.of_squad(request.actor, find_squad(request.actor, pk)))


@roles(WRITERS)
@require_safe
def own_dose_check(request: ActorRequest) -> HttpResponse:
    text = request.GET.get("notation", "")
    return render(request, "desk/dose_check.html", {"reading": read_own_dose(text) if text.strip() else None})
