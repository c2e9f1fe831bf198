from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import PermissionDenied
from django.http import HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from coachhub.base.actor import READERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.cards import actions
from coachhub.cards.forms_best import KnownBestForm
from coachhub.desk.pages.athletes import find_athlete
from coachhub.desk.pages.cards_history import BestsPage, ExerciseHistoryPage, HistoryPage
from coachhub.desk.pages.levels import LevelStep


@roles(READERS)
@require_safe
def history(request: ActorRequest, pk: int) -> HttpResponse:
    return render_page(request, "desk/cards_history.html", HistoryPage.of(request.actor, pk))


@roles(READERS)
@require_safe
def history_exercise(request: ActorRequest, pk: int, exercise_pk: int) -> HttpResponse:
    page = ExerciseHistoryPage.of(request.actor, pk, exercise_pk, request.GET.get("page", ""))
    step = LevelStep.of(page.athlete, page.exercise)
    return render_page(request, "desk/cards_history_exercise.html", page, step=step)


@roles(READERS)
@require_http_methods(["GET", "HEAD", "POST"])
def known_bests(request: ActorRequest, pk: int) -> HttpResponse:
    """Everyone who reads training reads them; coaches add."""
    athlete = find_athlete(request.actor, pk)
    if request.method == "POST" and not request.actor.may_write:
        raise PermissionDenied
    form = KnownBestForm(request.POST if request.method == "POST" else None, athlete=athlete)
    if form.is_valid():
        actions.set_known_best(actor=request.actor, athlete=athlete, **form.cleaned_data)
        messages.success(request, _("Noted. Cards that are made or renewed from now on use it."))
        return redirect("desk:known_bests", pk=pk)
    page = BestsPage.of(request.actor, athlete)
    return render_page(request, "desk/cards_bests.html", page, form=form, status=422 if form.errors else 200)
