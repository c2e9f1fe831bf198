from __future__ import annotations

from django.http import HttpResponse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_safe

from coachhub.base.actor import READERS, WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.desk.pages.athletes import find_athlete
from coachhub.desk.pages.calendar_feed import FeedPage
from coachhub.desk.pages.calendar_own import OwnDatesPage
from coachhub.desk.pages.squads import find_squad
from coachhub.people.models import Athlete, Squad
from coachhub.season import actions


@roles(READERS)
@require_safe
def own_dates(request: ActorRequest, pk: int) -> HttpResponse:
    """An athlete's school and other sport, beside what their squads do."""
    page = OwnDatesPage.of(request.actor, find_athlete(request.actor, pk))
    return render_page(request, "desk/calendar_own.html", page)


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
@never_cache
def squad_feed(request: ActorRequest, pk: int) -> HttpResponse:
    return feed_page(request, squad=find_squad(request.actor, pk))


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
@never_cache
def athlete_feed(request: ActorRequest, pk: int) -> HttpResponse:
    return feed_page(request, athlete=find_athlete(request.actor, pk))


def feed_page(request: ActorRequest, *, squad: Squad | None = None, athlete: Athlete | None = None) -> HttpResponse:
    """A POST makes an address, which this one answer shows, or takes it back."""
    token = ""
    if request.method == "POST" and "revoke" in request.POST:
        actions.revoke_feed(actor=request.actor, squad=squad, athlete=athlete)
    elif request.method == "POST":
        token = actions.make_feed(actor=request.actor, squad=squad, athlete=athlete)
    page = FeedPage.of(request, squad=squad, athlete=athlete, token=token)
    return render_page(request, "desk/calendar_feed.html", page)
