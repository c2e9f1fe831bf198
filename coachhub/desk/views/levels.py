"""Levels in families of exercises: read, set, stepped up or down."""

from __future__ import annotations

from collections.abc import Sequence

from django.contrib import messages
from django.core.exceptions import PermissionDenied
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from coachhub.base.actor import READERS, WRITERS, ActorRequest
from coachhub.base.clock import today
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.cards.actions import levels as actions
from coachhub.cards.actions.levels import NewLevel
from coachhub.desk.pages.athletes import find_athlete
from coachhub.desk.pages.levels import (
    AthleteLevels,
    LevelStep,
    SquadLevels,
    StepRow,
    all_families,
    members_of,
    step_rows,
)
from coachhub.desk.pages.own import renew_words
from coachhub.desk.pages.squads import find_squad
from coachhub.desk.plain import posted
from coachhub.library.models import Exercise
from coachhub.people.forms_levels import AnswerForm, LevelForm, StepForm
from coachhub.people.models import Athlete

FORM = ["GET", "HEAD", "POST"]


@roles(READERS)
@require_http_methods(FORM)
def levels(request: ActorRequest, pk: int) -> HttpResponse:
    """Everyone who reads training reads them; coaches set one."""
    athlete = find_athlete(request.actor, pk)
    form = level_form(request)
    if form is not None and form.is_valid():
        new = [NewLevel(athlete, form.family, form.exercise, form.cleaned_data["reason"])]
        n = actions.set_levels(actor=request.actor, new=new, from_on=form.cleaned_data["from_on"])
        return told(request, _("Set."), n, "desk:levels", pk)
    page = AthleteLevels.of(request.actor, athlete)
    return render_page(request, "desk/levels.html", page, form=form, status=422 if form and form.errors else 200)


@roles(READERS)
@require_http_methods(FORM)
def squad_levels(request: ActorRequest, pk: int) -> HttpResponse:
    squad = find_squad(request.actor, pk)
    form = level_form(request, members_of(squad))
    if form is not None and form.is_valid():
        new = [NewLevel(one, form.family, form.exercise, form.cleaned_data["reason"]) for one in form.chosen]
        n = actions.set_levels(actor=request.actor, new=new, from_on=form.cleaned_data["from_on"])
        return told(request, _("Set."), n, "desk:squad_levels", pk)
    page = SquadLevels.of(request.actor, squad)
    return render_page(request, "desk/squad_levels.html", page, form=form, status=422 if form and form.errors else 200)


@roles(WRITERS)
@require_POST
def athlete_steps(request: ActorRequest, pk: int) -> HttpResponse:
    return answer(request, step_rows([find_athlete(request.actor, pk)]), "desk:levels", pk)


@roles(WRITERS)
@require_POST
def squad_steps(request: ActorRequest, pk: int) -> HttpResponse:
    return answer(request, step_rows(members_of(find_squad(request.actor, pk))), "desk:squad_levels", pk)


@roles(WRITERS)
@require_POST
def level_step(request: ActorRequest, pk: int, exercise_pk: int) -> HttpResponse:
    """Up or down by one, from the history of an exercise."""
    athlete, exercise = find_athlete(request.actor, pk), get_object_or_404(Exercise, pk=exercise_pk)
    step, form = LevelStep.of(athlete, exercise), StepForm(request.POST)
    if step is None:
        raise Http404
    to = step.to(form.cleaned_data["step"]) if form.is_valid() else None
    # The page may be an old one: a step is from where it was seen, never two at once.
    if to is None or request.POST.get("from") != str(step.current.pk):
        messages.error(request, _("Nothing was changed: say why, and look where the athlete is now."))
        return redirect("desk:history_exercise", pk=pk, exercise_pk=exercise_pk)
    reason = step.reason_of(form.cleaned_data["step"], form.cleaned_data["reason"])
    new = [NewLevel(athlete, step.family, to, reason)]
    n = actions.set_levels(actor=request.actor, new=new, from_on=today())
    return told(request, _("From today: %(name)s.") % {"name": to.name}, n, "desk:levels", pk)


def level_form(request: ActorRequest, athletes: Sequence[Athlete] | None = None) -> LevelForm | None:
    """None for whoever only reads, or where there is nobody or no family to choose."""
    if not request.actor.may_write:
        if request.method == "POST":
            raise PermissionDenied
        return None
    families = all_families()
    if not families or athletes == []:
        return None
    return LevelForm(posted(request), families=families, athletes=list(athletes or ()))


def answer(request: ActorRequest, rows: Sequence[StepRow], back: str, pk: int) -> HttpResponse:
    form = AnswerForm(request.POST, keys=[row.key for row in rows])
    if not form.is_valid():
        messages.error(request, _("Nothing was changed: choose steps that are still proposed."))
        return redirect(back, pk=pk)
    chosen = [row.step for row in rows if row.key in form.cleaned_data["steps"]]
    is_accepted = form.cleaned_data["answer"] == "accept"
    n = actions.answer_steps(actor=request.actor, steps=chosen, is_accepted=is_accepted)
    return told(request, _("Taken.") if is_accepted else _("Declined: they stay."), n, back, pk)


def told(request: ActorRequest, words: str, n: int, back: str, pk: int) -> HttpResponse:
    messages.success(request, f"{words} {renew_words(n)}".strip())
    return redirect(back, pk=pk)
