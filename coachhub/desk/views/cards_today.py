from __future__ import annotations

from django.http import HttpResponse
from django.views.decorators.http import require_safe

from coachhub.base.actor import STAFF, ActorKind, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.desk.pages.cards_today import AvailabilityPage, TodayPage


@roles(STAFF)
@require_safe
def today(request: ActorRequest) -> HttpResponse:
    """A head coach's first page is availability, and no more."""
    if request.actor.kind is ActorKind.HEAD_COACH:
        page = AvailabilityPage.of(request.actor, request.GET.get("page", ""))
        return render_page(request, "desk/cards_availability.html", page)
    return render_page(request, "desk/cards_today.html", TodayPage.of(request.actor))
