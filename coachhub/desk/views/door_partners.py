"""Who shares a station, and who is kept together or apart."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from coachhub.base.actor import WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.cards.actions.stations import add_wish, end_wish, place_at_stations
from coachhub.cards.models import PairWish
from coachhub.desk.pages.cards_floor import floor_url
from coachhub.desk.pages.door_partners import PartnersPage, partners_url


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def partners(request: ActorRequest, pk: int) -> HttpResponse:
    data = request.POST if request.method == "POST" else None
    page = PartnersPage.of(request.actor, pk, data=data, propose="propose" in request.GET)
    if not page.form.is_valid() or not page.rows:
        return render_page(request, "desk/partners.html", page, status=422 if page.form.is_bound else 200)
    place_at_stations(actor=request.actor, assignment=page.row, stations=page.form.stations, holes=page.form.holes)
    messages.success(request, _("The stations are on the floor page."))
    return redirect(floor_url(pk))


@roles(WRITERS)
@require_POST
def wish_add(request: ActorRequest, pk: int) -> HttpResponse:
    page = PartnersPage.of(request.actor, pk, wish_data=request.POST)
    if not page.wish_form.is_valid():
        return render_page(request, "desk/partners.html", page, status=422)
    wish = add_wish(actor=request.actor, **page.wish_form.cleaned_data)
    told = {"one": wish.athlete, "other": wish.other, "kind": wish.get_kind_display()}
    messages.success(request, _("%(one)s and %(other)s: kept %(kind)s.") % told)
    return redirect(f"{partners_url(pk)}?propose=1")


@roles(WRITERS)
@require_POST
def wish_end(request: ActorRequest, pk: int, wish_pk: int) -> HttpResponse:
    page = PartnersPage.of(request.actor, pk)
    wish = get_object_or_404(PairWish, pk=wish_pk, athlete__in=[one.row.athlete_id for one in page.rows])
    end_wish(actor=request.actor, wish=wish)
    messages.success(request, _("This no longer holds."))
    return redirect(f"{partners_url(pk)}?propose=1")
