"""The athlete says when they are away, and when they are back."""

from __future__ import annotations

from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST

from coachhub.base.actor import ActorKind, ActorRequest
from coachhub.base.clock import today
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.cards.actions.absence import end_absence, mark_absent
from coachhub.gym.find import find_self
from coachhub.gym.pages.absence import AbsencePage
from coachhub.season.forms_absence import AbsenceForm
from coachhub.season.queries_absence import absences_from


@roles(ActorKind.ATHLETE)
@require_http_methods(["GET", "HEAD", "POST"])
@never_cache
def absence(request: ActorRequest) -> HttpResponse:
    athlete, form = find_self(request.actor), AbsenceForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        try:
            mark_absent(actor=request.actor, athletes=[athlete], **form.cleaned_data)
        except ValidationError as error:
            form.add_error("to_on", error)
        else:
            return redirect("gym:absence")
    status = 422 if form.errors else 200
    return render_page(request, "gym/absence.html", AbsencePage.of(request.actor), form=form, status=status)


@roles(ActorKind.ATHLETE)
@require_POST
@never_cache
def back(request: ActorRequest, pk: int) -> HttpResponse:
    """There again from today on."""
    row = get_object_or_404(absences_from(request.actor, today()), pk=pk)
    end_absence(actor=request.actor, absence=row, back_on=today())
    return redirect("gym:absence")
