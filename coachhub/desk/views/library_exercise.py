from __future__ import annotations

from django.http import HttpResponse
from django.views.decorators.http import require_safe

from coachhub.base.actor import STAFF, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.desk.pages.levels import family_rungs
from coachhub.desk.pages.library import ExercisePage


@roles(STAFF)
@require_safe
def exercise(request: ActorRequest, pk: int) -> HttpResponse:
    page = ExercisePage.of(pk)
    return render_page(request, "desk/exercise.html", page, rungs=family_rungs(request.actor, page.family))
