from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from coachhub.base.actor import WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.desk.pages.athletes import find_athlete
from coachhub.desk.pages.calendar_dates import find_dated
from coachhub.desk.pages.calendar_edit import (
    after_date,
    change_form,
    find_for_writing,
    new_initial,
    scope_of,
    season_url,
)
from coachhub.desk.pages.forms import FormPage
from coachhub.desk.plain import posted, render_form
from coachhub.people.queries import live_squads
from coachhub.season import actions
from coachhub.season.forms import HappeningForm, OffForm, Shape, SlotForm
from coachhub.season.models import OWN_KINDS, SQUAD_KINDS


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def happening_add(request: ActorRequest) -> HttpResponse:
    squads = live_squads(request.actor)
    initial = new_initial(request.GET, squads, "from_on")
    form = HappeningForm(posted(request), kinds=SQUAD_KINDS, shape=Shape.NEW, squads=squads, initial=initial)
    if form.is_valid():
        added = actions.add_happening(actor=request.actor, squad=form.cleaned_data["squad"], **form.values())
        messages.success(request, _("It is in the calendar."))
        return redirect(season_url(added.squad_id, added.from_on))
    intro = _("A training, a holiday, a test or anything else that the squad must go round.")
    return render_form(request, form, FormPage(_("New date"), _("Add"), season_url(), intro))


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def slot_add(request: ActorRequest) -> HttpResponse:
    squads = live_squads(request.actor)
    initial = new_initial(request.GET, squads, "from_on")
    form = SlotForm(posted(request), shape=Shape.NEW, squads=squads, initial=initial)
    if form.is_valid():
        added = actions.add_slot(actor=request.actor, squad=form.cleaned_data["squad"], **form.values())
        messages.success(request, _("The gym slot is in the calendar."))
        return redirect(season_url(added.squad_id, added.from_on))
    intro = _("The squad's standing hour in a gym: sessions are planned on it.")
    return render_form(request, form, FormPage(_("New gym slot"), _("Add gym slot"), season_url(), intro))


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def own_date_add(request: ActorRequest, pk: int) -> HttpResponse:
    """An athlete's school or other sport."""
    athlete = find_athlete(request.actor, pk)
    initial = new_initial(request.GET, [], "from_on")
    form = HappeningForm(posted(request), kinds=OWN_KINDS, shape=Shape.NEW, initial=initial)
    back_url = reverse("desk:own_dates", kwargs={"pk": pk})
    if form.is_valid():
        actions.add_happening(actor=request.actor, athlete=athlete, **form.values())
        messages.success(request, _("Saved."))
        return redirect(back_url)
    title = _("%(name)s: school or other sport") % {"name": athlete.name}
    return render_form(request, form, FormPage(title, _("Add"), back_url))


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def date_change(request: ActorRequest, area: str, pk: int, on: str, scope: str) -> HttpResponse:
    row, day = find_dated(request.actor, area, pk, on)
    find_for_writing(request.actor, row)
    chosen = scope_of(scope)
    form = change_form(row, day, chosen, posted(request))
    if form.is_valid():
        try:
            actions.change_dates(actor=request.actor, row=row, on_date=day, scope=chosen, values=form.values())
        except actions.ChangedMeanwhileError as error:
            messages.warning(request, error.message)
            return redirect(after_date(row, day))
        except ValidationError as error:
            form.add_error(None, ValidationError(error.messages))
        else:
            messages.success(request, _("Saved."))
            return redirect(after_date(row, day))
    back_url = reverse(f"desk:{area}", kwargs={"pk": pk, "on": on})
    intro = str(chosen.label).capitalize() + "." if row.is_series else ""
    return render_form(request, form, FormPage(_("Change the date"), _("Save"), back_url, intro))


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def date_off(request: ActorRequest, area: str, pk: int, on: str) -> HttpResponse:
    row, day = find_dated(request.actor, area, pk, on)
    find_for_writing(request.actor, row)
    form = OffForm(posted(request), is_series=row.is_series)
    if form.is_valid():
        do = actions.remove_dates if form.is_removal else actions.call_off
        try:
            do(actor=request.actor, row=row, on_date=day, scope=form.scope_chosen)
            messages.success(request, _("Saved."))
        except actions.ChangedMeanwhileError as error:
            messages.warning(request, error.message)
        return redirect(after_date(row, day))
    back_url = reverse(f"desk:{area}", kwargs={"pk": pk, "on": on})
    return render_form(request, form, FormPage(_("Call off or remove"), _("Save"), back_url, is_stop=True))
