from __future__ import annotations

from django.http import HttpResponse
from django.views.decorators.http import require_safe

from coachhub.base.actor import STAFF, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.desk.pages.own import own_squad_part
from coachhub.desk.pages.squads import SquadPage, SquadsPage, find_squad


@roles(STAFF)
@require_safe
def squads(request: ActorRequest) -> HttpResponse:
    return render_page(request, "desk/squads.html", SquadsPage.of(request.actor))


@roles(STAFF)
@require_safe
def squad(request: ActorRequest, pk: int) -> HttpResponse:
    """Members as of today, and those of before."""
    found = find_squad(request.actor, pk)
    page, own = SquadPage.of(request.actor, found), own_squad_part(request.actor, found)
    return render_page(request, "desk/squad.html", page, own=own)
