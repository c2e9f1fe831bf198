from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from coachhub.base.actor import STAFF, WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.base.sending import send_file
from coachhub.base.uploads import capped_uploads, is_over
from coachhub.desk.pages.media import MediaPage, find_file, find_for_media
from coachhub.desk.plain import posted
from coachhub.library import actions_media as actions
from coachhub.library.forms_media import FileForm, LinkForm
from coachhub.library.media_kinds import UPLOAD_BYTES


@roles(STAFF)
@require_safe
def exercise_file(request: ActorRequest, pk: int) -> HttpResponse:
    row = find_file(pk)
    return send_file(request, row.file.open("rb"), media_type=row.media_type, size=row.size)


@roles(WRITERS)
@capped_uploads(UPLOAD_BYTES)
@require_http_methods(["GET", "HEAD", "POST"])
def exercise_media(request: ActorRequest, pk: int) -> HttpResponse:
    """The link, picture and film of an exercise; takes a file."""
    exercise = find_for_media(pk)
    form = FileForm(posted(request), request.FILES or None, is_over=is_over(request, UPLOAD_BYTES))
    if form.is_valid():
        actions.put_file(actor=request.actor, exercise=exercise, **form.cleaned_data)
        messages.success(request, _("The file is beside the exercise."))
        return redirect("desk:exercise_media", pk=pk)
    page = MediaPage.of(exercise, file=form)
    return render_page(request, "desk/exercise_media.html", page, status=422 if form.errors else 200)


@roles(WRITERS)
@require_POST
def exercise_link(request: ActorRequest, pk: int) -> HttpResponse:
    exercise = find_for_media(pk)
    form = LinkForm(request.POST)
    if form.is_valid():
        actions.link_film(actor=request.actor, exercise=exercise, **form.cleaned_data)
        messages.success(request, _("Saved."))
        return redirect("desk:exercise_media", pk=pk)
    return render_page(request, "desk/exercise_media.html", MediaPage.of(exercise, link=form), status=422)


@roles(WRITERS)
@require_POST
def exercise_file_remove(request: ActorRequest, pk: int) -> HttpResponse:
    row = find_file(pk)
    actions.remove_file(actor=request.actor, file=row)
    messages.success(request, _("Taken away."))
    return redirect("desk:exercise_media", pk=row.exercise_id)
