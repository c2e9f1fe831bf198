from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from coachhub.base.actor import WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.desk.pages.calendar_dates import athletes_to_note, find_match, played_in
from coachhub.desk.pages.calendar_edit import find_for_writing, new_initial, season_url
from coachhub.desk.pages.forms import FormPage
from coachhub.desk.pages.plan_fit import would_move
from coachhub.desk.plain import posted, render_form
from coachhub.people.queries import live_squads
from coachhub.season import actions
from coachhub.season.forms import MatchForm, MinutesForm, OffForm
from coachhub.season.models import MatchDay


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def match_add(request: ActorRequest) -> HttpResponse:
    squads = live_squads(request.actor)
    form = MatchForm(posted(request), squads=squads, initial=new_initial(request.GET, squads, "on_date"))
    if form.is_valid():
        added = actions.add_match(actor=request.actor, **form.cleaned_data)
        messages.success(request, _("The match is in the calendar."))
        return after_match(request, added, season_url(added.squad_id, added.on_date))
    return render_form(request, form, FormPage(_("New match"), _("Add match"), season_url()))


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def match_edit(request: ActorRequest, pk: int) -> HttpResponse:
    match = find_for_writing(request.actor, find_match(request.actor, pk))
    form = MatchForm(posted(request), instance=match)
    back_url = reverse("desk:match", kwargs={"pk": pk})
    if form.is_valid():
        try:
            actions.edit_match(actor=request.actor, match=find_match(request.actor, pk), **form.cleaned_data)
        except ValidationError as error:
            form.add_error(None, error)
        else:
            messages.success(request, _("Saved."))
            return after_match(request, match, back_url) if "on_date" in form.changed_data else redirect(back_url)
    return render_form(request, form, FormPage(_("Change the match"), _("Save"), back_url))


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def match_minutes(request: ActorRequest, pk: int) -> HttpResponse:
    match = find_for_writing(request.actor, find_match(request.actor, pk))
    athletes, played = athletes_to_note(request.actor, match), played_in(match)
    form = MinutesForm(posted(request), athletes=athletes, played=played)
    back_url = reverse("desk:match", kwargs={"pk": pk})
    if form.is_valid():
        actions.set_minutes(actor=request.actor, match=match, minutes=form.minutes())
        messages.success(request, _("The minutes are noted."))
        return redirect(back_url)
    intro = _("0 for who was there and did not play; empty where nothing is known.")
    return render_form(request, form, FormPage(_("Minutes played"), _("Save"), back_url, intro))


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def match_off(request: ActorRequest, pk: int) -> HttpResponse:
    """Called off it stays, struck through; removed it is gone."""
    match = find_for_writing(request.actor, find_match(request.actor, pk))
    form = OffForm(posted(request), is_series=False)
    if form.is_valid():
        try:
            do = actions.remove_match if form.is_removal else actions.cancel_match
            do(actor=request.actor, match=match)
        except ValidationError as error:
            form.add_error("how", error)
        else:
            messages.success(request, _("Saved."))
            return after_match(request, match, season_url(match.squad_id, match.on_date))
    back_url = reverse("desk:match", kwargs={"pk": pk})
    return render_form(request, form, FormPage(_("Call the match off"), _("Save"), back_url, is_stop=True))


@roles(WRITERS)
@require_POST
def match_again(request: ActorRequest, pk: int) -> HttpResponse:
    """One that was called off takes place after all."""
    match = find_for_writing(request.actor, find_match(request.actor, pk))
    actions.cancel_match(actor=request.actor, match=match, is_cancelled=False)
    messages.success(request, _("The match takes place."))
    return after_match(request, match, reverse("desk:match", kwargs={"pk": pk}))


def after_match(request: ActorRequest, match: MatchDay, url: str) -> HttpResponse:
    """Where sessions would move for it, to the preview; else on."""
    coming = would_move(request.actor, match)
    if coming is not None:
        messages.info(request, coming.words)
    return redirect(coming.url if coming else url)
