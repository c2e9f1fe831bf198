from __future__ import annotations

from django.http import HttpResponse
from django.views.decorators.http import require_safe

from coachhub.base.actor import STAFF, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.desk.pages.athletes import AthletePage
from coachhub.desk.pages.cards_health import health_part, instead_part
from coachhub.desk.pages.levels import levels_part
from coachhub.desk.pages.own import own_part
from coachhub.desk.pages.squads import AthletesPage


@roles(STAFF)
@require_safe
def athletes(request: ActorRequest) -> HttpResponse:
    """Found as people type."""
    asked = request.GET
    page = AthletesPage.of(request.actor, asked.get("q", "")[:80], asked.get("squad", ""), asked.get("page", ""))
    return render_page(request, "desk/athletes.html", page, partial="found")


@roles(STAFF)
@require_safe
def athlete(request: ActorRequest, pk: int) -> HttpResponse:
    page = AthletePage.of(request.actor, pk)
    health = health_part(request.actor, page.athlete)
    instead = instead_part(request.actor, page.athlete)
    own = own_part(request.actor, page.athlete, page.squads)
    levels = levels_part(request.actor, page.athlete)
    return render_page(request, "desk/athlete.html", page, health=health, instead=instead, own=own, levels=levels)
