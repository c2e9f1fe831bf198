from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from coachhub.base.actor import WRITERS, ActorKind, ActorRequest
from coachhub.base.gates import roles
from coachhub.desk.pages.forms import FormPage
from coachhub.desk.pages.squads import find_squad
from coachhub.desk.plain import posted, render_form
from coachhub.people import actions
from coachhub.people.forms import JoinForm, LeaveForm, SquadForm


@roles(ActorKind.OWNER)
@require_http_methods(["GET", "HEAD", "POST"])
def squad_add(request: ActorRequest) -> HttpResponse:
    form = SquadForm(posted(request))
    if form.is_valid():
        squad = actions.add_squad(actor=request.actor, **form.cleaned_data)
        messages.success(request, _("%(name)s is added. Who is in it?") % {"name": squad.name})
        return redirect("desk:squad", pk=squad.pk)
    return render_form(request, form, FormPage(_("New squad"), _("Add squad"), reverse("desk:squads")))


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def squad_edit(request: ActorRequest, pk: int) -> HttpResponse:
    squad = find_squad(request.actor, pk)
    title, back_url = _("Change %(name)s") % {"name": squad.name}, reverse("desk:squad", kwargs={"pk": pk})
    form = SquadForm(posted(request), instance=squad)
    if form.is_valid():
        actions.edit_squad(actor=request.actor, squad=squad, **form.cleaned_data)
        messages.success(request, _("Saved."))
        return redirect(back_url)
    return render_form(request, form, FormPage(title, _("Save"), back_url))


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def squad_join(request: ActorRequest, pk: int) -> HttpResponse:
    squad = find_squad(request.actor, pk)
    back_url = reverse("desk:squad", kwargs={"pk": pk})
    form = JoinForm(posted(request), actor=request.actor, squad=squad)
    if form.is_valid():
        try:
            actions.join_squad(actor=request.actor, squad=squad, **form.cleaned_data)
        except ValidationError as error:
            form.add_error(None, error)
        else:
            messages.success(request, _("%(name)s is in.") % {"name": form.cleaned_data["athlete"]})
            return redirect(back_url)
    title = _("An athlete joins %(name)s") % {"name": squad.name}
    return render_form(request, form, FormPage(title, _("Join"), back_url))


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def squad_leave(request: ActorRequest, pk: int, membership_pk: int) -> HttpResponse:
    squad = find_squad(request.actor, pk)
    membership = get_object_or_404(squad.memberships.select_related("athlete"), pk=membership_pk, ended_on=None)
    title = _("%(athlete)s leaves %(squad)s") % {"athlete": membership.athlete, "squad": squad}
    back_url = reverse("desk:squad", kwargs={"pk": pk})
    form = LeaveForm(posted(request), instance=membership)
    if form.is_valid():
        actions.leave_squad(actor=request.actor, membership=membership, **form.cleaned_data)
        messages.success(request, _("Saved."))
        return redirect(back_url)
    intro = _("Cards that were made stay. Coaches of this squad no longer see the athlete after the last day.")
    return render_form(request, form, FormPage(title, _("Leave the squad"), back_url, intro, is_stop=True))
