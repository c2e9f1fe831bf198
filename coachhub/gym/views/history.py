"""What the athlete has done."""

from __future__ import annotations

from django.http import HttpResponse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe

from coachhub.base.actor import ActorKind, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.gym.pages.history import ExercisePage, HistoryPage


@roles(ActorKind.ATHLETE)
@require_safe
@never_cache
def history(request: ActorRequest) -> HttpResponse:
    return render_page(request, "gym/history.html", HistoryPage.of(request.actor))


@roles(ActorKind.ATHLETE)
@require_safe
@never_cache
def history_exercise(request: ActorRequest, pk: int) -> HttpResponse:
    return render_page(request, "gym/history_exercise.html", ExercisePage.of(request.actor, pk))
