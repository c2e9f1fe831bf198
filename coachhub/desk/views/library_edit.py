from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from coachhub.base.actor import WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.desk.pages.library import ExerciseFormPage, find_exercise
from coachhub.library import actions_exercises as actions
from coachhub.library.forms_exercise_rows import ExerciseForms


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def exercise_add(request: ActorRequest) -> HttpResponse:
    form = ExerciseForms.sent(None, request.POST) if request.method == "POST" else ExerciseForms.of(None)
    if form.is_valid():
        added = actions.add_exercise(actor=request.actor, content=form.content(), is_regions_reviewed=form.is_reviewed)
        messages.success(request, _("%(name)s is in the library.") % {"name": added.name})
        return redirect("desk:exercise", pk=added.pk)
    return _render(request, form, ExerciseFormPage.new())


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def exercise_edit(request: ActorRequest, pk: int) -> HttpResponse:
    own = find_exercise(pk)
    form = ExerciseForms.sent(own, request.POST) if request.method == "POST" else ExerciseForms.of(own)
    if form.is_valid():
        is_changed = actions.change_exercise(
            actor=request.actor, exercise=own, content=form.content(), is_regions_reviewed=form.is_reviewed
        )
        messages.success(request, _("Saved.") if is_changed else _("Nothing was different."))
        return redirect("desk:exercise", pk=pk)
    return _render(request, form, ExerciseFormPage.of(own))


def _render(request: ActorRequest, form: ExerciseForms, page: ExerciseFormPage) -> HttpResponse:
    status = 422 if form.has_errors else 200
    return render_page(request, "desk/exercise_edit.html", page, form=form, status=status)
