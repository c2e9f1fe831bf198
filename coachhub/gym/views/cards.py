"""An athlete's cards, and one card."""

from __future__ import annotations

from django.http import HttpResponse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe

from coachhub.base.actor import FLOOR, ActorKind, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.gym.find import find_sheet
from coachhub.gym.pages.card import CardPage
from coachhub.gym.pages.home import HomePage


@roles(ActorKind.ATHLETE)
@require_safe
@never_cache
def home(request: ActorRequest) -> HttpResponse:
    return render_page(request, "gym/home.html", HomePage.of(request.actor))


@roles(FLOOR, ActorKind.ATHLETE)
@require_safe
@never_cache
def card(request: ActorRequest, pk: int) -> HttpResponse:
    sheet = find_sheet(request.actor, pk)
    page = CardPage.of(sheet, request.actor, at=request.GET.get("at", ""), is_early="early" in request.GET)
    return render_page(request, "gym/card.html", page)
