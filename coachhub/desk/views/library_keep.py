from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from coachhub.base.actor import WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.desk.pages.library import find_exercise
from coachhub.library import actions_exercises as actions


@roles(WRITERS)
@require_POST
def exercise_archive(request: ActorRequest, pk: int) -> HttpResponse:
    actions.archive_exercise(actor=request.actor, exercise=find_exercise(pk))
    messages.success(request, _("Put away. Sessions and cards that have it keep it."))
    return redirect("desk:exercise", pk=pk)


@roles(WRITERS)
@require_POST
def exercise_restore(request: ActorRequest, pk: int) -> HttpResponse:
    actions.bring_back_exercise(actor=request.actor, exercise=find_exercise(pk))
    messages.success(request, _("Back in use."))
    return redirect("desk:exercise", pk=pk)


@roles(WRITERS)
@require_POST
def exercise_newer(request: ActorRequest, pk: int) -> HttpResponse:
    """Take the starting library's newer text, or keep the club's own."""
    exercise = find_exercise(pk)
    try:
        if request.POST.get("choice") == "take":
            actions.take_newer_text(actor=request.actor, exercise=exercise)
            messages.success(request, _("The newer text is in place."))
        elif request.POST.get("choice") == "keep":
            actions.keep_own_text(actor=request.actor, exercise=exercise)
            messages.success(request, _("Your own text stays."))
    except actions.NameTakenError as error:
        messages.error(request, _("Another exercise is called “%(name)s”: rename that one first.") % {"name": error})
    return redirect("desk:exercise", pk=pk)
