from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from coachhub.base.actor import STAFF, WRITERS, ActorRequest
from coachhub.base.clock import today
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.cards.actions.absence import end_absence, mark_absent
from coachhub.desk.pages.calendar_absences import AbsencesPage, find_absence, members
from coachhub.desk.pages.forms import FormPage
from coachhub.desk.pages.squads import find_squad
from coachhub.desk.plain import posted, render_form
from coachhub.season.forms_absence import SquadAbsenceForm


@roles(STAFF)
@require_safe
def absences(request: ActorRequest, pk: int) -> HttpResponse:
    page = AbsencesPage.of(request.actor, find_squad(request.actor, pk))
    return render_page(request, "desk/calendar_absences.html", page)


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def absence_add(request: ActorRequest, pk: int) -> HttpResponse:
    squad = find_squad(request.actor, pk)
    form = SquadAbsenceForm(posted(request), athletes=members(request.actor, squad))
    back_url = reverse("desk:absences", kwargs={"pk": pk})
    if form.is_valid():
        try:
            mark_absent(actor=request.actor, **form.cleaned_data)
        except ValidationError as error:
            form.add_error("to_on", error)
        else:
            messages.success(request, _("Saved. Cards of these days that nobody has begun say “absent”."))
            return redirect(back_url)
    intro = _("Why, is read by the athlete, their coaches and the clinician; everyone else reads “absent”.")
    return render_form(request, form, FormPage(_("Who is away"), _("Save"), back_url, intro))


@roles(WRITERS)
@require_POST
def absence_end(request: ActorRequest, pk: int, absence_pk: int) -> HttpResponse:
    """There again from today on."""
    squad = find_squad(request.actor, pk)
    absence = find_absence(request.actor, absence_pk)
    end_absence(actor=request.actor, absence=absence, back_on=today())
    messages.success(request, _("%(name)s is there again.") % {"name": absence.athlete.name})
    return redirect("desk:absences", pk=squad.pk)
