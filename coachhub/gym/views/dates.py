"""The athlete's calendar: what the squads do, what they have besides, an address for the phone's own calendar."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import redirect
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from coachhub.base.actor import ActorKind, ActorRequest
from coachhub.base.clock import today
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.gym.find import find_self
from coachhub.gym.pages.dates import DateFormPage, DatesPage, FeedPage, find_own
from coachhub.season import actions
from coachhub.season.forms import HappeningForm, Shape
from coachhub.season.models import OWN_KINDS


@roles(ActorKind.ATHLETE)
@require_safe
@never_cache
def dates(request: ActorRequest) -> HttpResponse:
    return render_page(request, "gym/dates.html", DatesPage.of(request.actor, find_self(request.actor)))


@roles(ActorKind.ATHLETE)
@require_http_methods(["GET", "HEAD", "POST"])
@never_cache
def date_add(request: ActorRequest) -> HttpResponse:
    """School or other sport."""
    athlete, data = find_self(request.actor), request.POST if request.method == "POST" else None
    form = HappeningForm(data, kinds=OWN_KINDS, shape=Shape.NEW, initial={"from_on": today()})
    if form.is_valid():
        actions.add_happening(actor=request.actor, athlete=athlete, **form.values())
        return redirect("gym:dates")
    status = 422 if form.errors else 200
    return render_page(request, "gym/date_form.html", DateFormPage(), form=form, status=status)


@roles(ActorKind.ATHLETE)
@require_http_methods(["GET", "HEAD", "POST"])
@never_cache
def date_edit(request: ActorRequest, pk: int) -> HttpResponse:
    row = find_own(find_self(request.actor), pk)
    data = request.POST if request.method == "POST" else None
    form = HappeningForm(data, instance=row, kinds=OWN_KINDS, shape=Shape.NEW)
    if form.is_valid():
        actions.edit_whole(actor=request.actor, row=row, **form.values())
        return redirect("gym:dates")
    status = 422 if form.errors else 200
    return render_page(request, "gym/date_form.html", DateFormPage(pk), form=form, status=status)


@roles(ActorKind.ATHLETE)
@require_POST
@never_cache
def date_remove(request: ActorRequest, pk: int) -> HttpResponse:
    actions.remove_whole(actor=request.actor, row=find_own(find_self(request.actor), pk))
    return redirect("gym:dates")


@roles(ActorKind.ATHLETE)
@require_http_methods(["GET", "HEAD", "POST"])
@never_cache
def feed(request: ActorRequest) -> HttpResponse:
    """A POST makes an address, which this one answer shows, or takes it back."""
    athlete, token = find_self(request.actor), ""
    if request.method == "POST" and "revoke" in request.POST:
        actions.revoke_feed(actor=request.actor, athlete=athlete)
    elif request.method == "POST":
        token = actions.make_feed(actor=request.actor, athlete=athlete)
    return render_page(request, "gym/date_feed.html", FeedPage.of(request, athlete, token))
