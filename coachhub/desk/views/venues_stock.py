from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods

from coachhub.base.actor import WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.desk.pages.venues import VenueFormPage, find_venue
from coachhub.library import actions
from coachhub.library.forms_stock import SeriesForm, StockForms


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def venue_stock(request: ActorRequest, pk: int) -> HttpResponse:
    """All that stands at a venue, saved at once."""
    venue = find_venue(pk)
    is_sent = request.method == "POST"
    form = StockForms.of(venue, request.POST if is_sent else None)
    if is_sent and form.is_valid():
        actions.replace_stock(actor=request.actor, venue=venue, **form.values())
        messages.success(request, _("The stock is saved."))
        return redirect("desk:venue", pk=pk)
    status = 422 if is_sent else 200
    return render_page(request, "desk/venue_stock.html", VenueFormPage.of(venue), form=form, status=status)


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def venue_series(request: ActorRequest, pk: int) -> HttpResponse:
    """A whole series of weights at once."""
    venue = find_venue(pk)
    form = SeriesForm(request.POST if request.method == "POST" else None, initial={"unit": venue.unit})
    if form.is_valid():
        masses = actions.add_series(actor=request.actor, venue=venue, **form.cleaned_data)
        text = ngettext("%(n)s mass is in the stock.", "%(n)s masses are in the stock.", masses)
        messages.success(request, text % {"n": masses})
        return redirect("desk:venue_stock", pk=pk)
    status = 422 if form.errors else 200
    return render_page(request, "desk/venue_series.html", VenueFormPage.of(venue), form=form, status=status)
