from __future__ import annotations

from django import forms
from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from coachhub.base.actor import HEALTH, WRITERS, ActorKind, ActorRequest
from coachhub.base.clock import today
from coachhub.base.gates import roles
from coachhub.desk.pages.athletes import find_athlete, find_athlete_who_left, tell_twin
from coachhub.desk.pages.forms import FormPage
from coachhub.desk.plain import posted, render_form
from coachhub.people import actions
from coachhub.people.forms import AthleteForm, AvailabilityForm, NewAthleteForm
from coachhub.people.queries import availability_before


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def athlete_add(request: ActorRequest) -> HttpResponse:
    form = NewAthleteForm(posted(request), actor=request.actor, initial={"squad": request.GET.get("squad")})
    if form.is_valid() and not tell_twin(request.actor, form):
        try:
            athlete = actions.add_athlete(actor=request.actor, **form.cleaned_data)
        except ValidationError as error:
            form.add_error(None, error)
        else:
            messages.success(request, _("%(name)s is added.") % {"name": athlete})
            return redirect("desk:athlete", pk=athlete.pk)
    return render_form(request, form, FormPage(_("New athlete"), _("Add athlete"), reverse("desk:athletes")))


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def athlete_edit(request: ActorRequest, pk: int) -> HttpResponse:
    athlete = find_athlete(request.actor, pk)
    title, back_url = _("Change %(name)s") % {"name": athlete}, reverse("desk:athlete", kwargs={"pk": pk})
    form = AthleteForm(posted(request), instance=athlete)
    if form.is_valid():
        actions.edit_athlete(actor=request.actor, athlete=athlete, **form.cleaned_data)
        messages.success(request, _("Saved."))
        return redirect(back_url)
    return render_form(request, form, FormPage(title, _("Save"), back_url))


@roles(ActorKind.OWNER)
@require_http_methods(["GET", "HEAD", "POST"])
def athlete_archive(request: ActorRequest, pk: int) -> HttpResponse:
    """Asked once more before it is done."""
    athlete = find_athlete(request.actor, pk)
    if request.method == "POST":
        actions.archive_athlete(actor=request.actor, athlete=athlete)
        messages.success(request, _("%(name)s has left the club.") % {"name": athlete})
        return redirect("desk:athletes")
    title = _("%(name)s leaves the club?") % {"name": athlete}
    intro = _("Leaves every squad today, and bound phones stop working. What was trained stays on record.")
    back_url = reverse("desk:athlete", kwargs={"pk": pk})
    return render_form(request, forms.Form(), FormPage(title, _("Leave the club"), back_url, intro, is_stop=True))


@roles(ActorKind.OWNER)
@require_http_methods(["GET", "HEAD", "POST"])
def athlete_return(request: ActorRequest, pk: int) -> HttpResponse:
    """Asked once more before it is done."""
    athlete = find_athlete_who_left(request.actor, pk)
    if request.method == "POST":
        actions.bring_back_athlete(actor=request.actor, athlete=athlete)
        messages.success(request, _("%(name)s is back. Choose a squad on its page.") % {"name": athlete})
        return redirect("desk:athlete", pk=pk)
    title = _("Bring %(name)s back into the club?") % {"name": athlete}
    intro = _("With all that was trained and noted. In no squad, and with no phone, until you say so.")
    return render_form(request, forms.Form(), FormPage(title, _("Bring back"), reverse("desk:athletes"), intro))


@roles(HEALTH)
@require_http_methods(["GET", "HEAD", "POST"])
def availability(request: ActorRequest, pk: int) -> HttpResponse:
    athlete = find_athlete(request.actor, pk)
    back_url = reverse("desk:athlete", kwargs={"pk": pk})
    form = AvailabilityForm(posted(request), initial=availability_before(athlete, today()))
    if form.is_valid():
        actions.set_availability(actor=request.actor, athlete=athlete, **form.cleaned_data)
        messages.success(request, _("Saved."))
        return redirect(back_url)
    intro = _("From that day until it is set again. Everyone on the staff sees it; it changes no card by itself.")
    title = _("Availability of %(name)s") % {"name": athlete}
    return render_form(request, form, FormPage(title, _("Save"), back_url, intro))
