from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from coachhub.base.actor import WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.desk.pages.venues import VenueFormPage, find_archived_venue, find_venue
from coachhub.library import actions
from coachhub.library.forms import VenueForm


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def venue_add(request: ActorRequest) -> HttpResponse:
    form = VenueForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        venue = actions.add_venue(actor=request.actor, **form.cleaned_data)
        messages.success(request, _("%(name)s is added. What stands there?") % {"name": venue.name})
        return redirect("desk:venue_stock", pk=venue.pk)
    status = 422 if form.errors else 200
    return render_page(request, "desk/venue_edit.html", VenueFormPage.new(), form=form, status=status)


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def venue_edit(request: ActorRequest, pk: int) -> HttpResponse:
    venue = find_venue(pk)
    page = VenueFormPage.of(venue)
    form = VenueForm(request.POST if request.method == "POST" else None, instance=venue)
    if form.is_valid():
        actions.change_venue(actor=request.actor, venue=venue, **form.cleaned_data)
        messages.success(request, _("Saved."))
        return redirect("desk:venue", pk=pk)
    return render_page(request, "desk/venue_edit.html", page, form=form, status=422 if form.errors else 200)


@roles(WRITERS)
@require_POST
def venue_archive(request: ActorRequest, pk: int) -> HttpResponse:
    venue = find_venue(pk)
    actions.archive_venue(actor=request.actor, venue=venue)
    messages.success(request, _("%(name)s is put away. Cards that were given there keep it.") % {"name": venue.name})
    return redirect("desk:venues")


@roles(WRITERS)
@require_POST
def venue_restore(request: ActorRequest, pk: int) -> HttpResponse:
    actions.bring_back_venue(actor=request.actor, venue=find_archived_venue(pk))
    messages.success(request, _("Back in use."))
    return redirect("desk:venue", pk=pk)
