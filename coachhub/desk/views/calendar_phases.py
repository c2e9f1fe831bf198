from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from coachhub.base.actor import READERS, WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.desk.pages.calendar_phases import PhasesPage, find_phase
from coachhub.desk.pages.forms import FormPage
from coachhub.desk.pages.squads import find_squad
from coachhub.desk.plain import posted, render_form
from coachhub.season import actions
from coachhub.season.forms_phases import PhaseForm


@roles(READERS)
@require_safe
def phases(request: ActorRequest, pk: int) -> HttpResponse:
    page = PhasesPage.of(request.actor, find_squad(request.actor, pk))
    return render_page(request, "desk/calendar_phases.html", page)


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def phase_edit(request: ActorRequest, pk: int, phase_pk: int | None = None) -> HttpResponse:
    """A new phase, or one that is changed."""
    squad = find_squad(request.actor, pk)
    phase = find_phase(request.actor, squad, phase_pk) if phase_pk else None
    form, back_url = PhaseForm(posted(request), instance=phase), reverse("desk:phases", kwargs={"pk": pk})
    if form.is_valid():
        told = {name: form.cleaned_data[name] for name in ("code", "from_on", "to_on")}
        try:
            actions.set_phase(actor=request.actor, squad=squad, targets=form.targets(), phase=phase, **told)
        except ValidationError as error:
            form.add_error(None, ValidationError(error.messages))
        else:
            messages.success(request, _("Saved."))
            return redirect(back_url)
    intro = _("Hard sets a week for each pattern, one athlete. Empty: what is usual in the phase.")
    title = _("Change the phase") if phase else _("New phase")
    return render_form(request, form, FormPage(title, _("Save"), back_url, intro))


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def phase_remove(request: ActorRequest, pk: int, phase_pk: int) -> HttpResponse:
    squad = find_squad(request.actor, pk)
    phase = find_phase(request.actor, squad, phase_pk)
    back_url = reverse("desk:phases", kwargs={"pk": pk})
    if request.method == "POST":
        actions.remove_phase(actor=request.actor, phase=phase)
        messages.success(request, _("The phase is removed."))
        return redirect(back_url)
    title = _("Remove “%(phase)s”?") % {"phase": phase.get_code_display()}
    return render_page(request, "desk/calendar_phase_remove.html", FormPage(title, _("Remove"), back_url, is_stop=True))
