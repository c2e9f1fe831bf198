from __future__ import annotations

from django.http import HttpResponse
from django.views.decorators.http import require_safe

from coachhub.base.actor import STAFF, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.desk.pages.venues import VenuePage, VenuesPage


@roles(STAFF)
@require_safe
def venues(request: ActorRequest) -> HttpResponse:
    return render_page(request, "desk/venues.html", VenuesPage.of())


@roles(STAFF)
@require_safe
def venue(request: ActorRequest, pk: int) -> HttpResponse:
    return render_page(request, "desk/venue.html", VenuePage.of(pk))
