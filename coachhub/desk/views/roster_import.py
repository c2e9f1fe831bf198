from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from coachhub.base.actor import WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.base.tables import MOST_BYTES
from coachhub.base.uploads import capped_uploads, is_over
from coachhub.desk.pages.roster_import import MatchPage, PreviewPage, UploadPage, find_draft, match_form, own_drafts
from coachhub.desk.pages.roster_kinds import SORTS
from coachhub.desk.plain import posted
from coachhub.people import actions
from coachhub.people.models import ImportKind


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
@capped_uploads(MOST_BYTES)
def roster_upload(request: ActorRequest, kind: ImportKind) -> HttpResponse:
    form = SORTS[kind].form(posted(request), request.FILES or None, is_over=is_over(request, MOST_BYTES))
    if form.is_valid():
        name = form.cleaned_data["file"].name
        draft = actions.keep_draft(actor=request.actor, kind=kind, file_name=name, table=form.table)
        return redirect("desk:roster_match", pk=draft.pk)
    status = 422 if form.errors else 200
    return render_page(request, "desk/roster_upload.html", UploadPage.of(request.actor, kind), form=form, status=status)


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def roster_match(request: ActorRequest, pk: int) -> HttpResponse:
    draft = find_draft(request.actor, pk)
    form = match_form(request.actor, draft, posted(request))
    if form.is_valid():
        actions.set_reading(actor=request.actor, draft=draft, reading=form.reading())
        return redirect("desk:roster_preview", pk=pk)
    status = 422 if form.errors else 200
    return render_page(
        request, "desk/roster_match.html", MatchPage.of(request.actor, draft, form), form=form, status=status
    )


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def roster_preview(request: ActorRequest, pk: int) -> HttpResponse:
    """Shows what would change; a POST writes exactly what was shown."""
    if request.method == "POST":
        return confirm(request, pk)
    draft = find_draft(request.actor, pk)
    reading = draft.as_reading()
    if reading is None:
        return redirect("desk:roster_match", pk=pk)
    page = PreviewPage.of(request.actor, draft, reading, request.GET.get("page", ""))
    return render_page(request, "desk/roster_preview.html", page)


def confirm(request: ActorRequest, pk: int) -> HttpResponse:
    """Pressed twice, or too late, it says so: the answer to the second press is the one that people see."""
    draft = own_drafts(request.actor).filter(pk=pk).first()
    if draft is None:
        messages.warning(request, _("This upload is no longer here: it was imported, deleted, or is over an hour old."))
        return redirect("desk:athletes")
    sort = SORTS[ImportKind(draft.kind)]
    ticked = {"sure": request.POST.getlist("sure")} if sort.has_doubts else {}
    try:
        counts = sort.write(actor=request.actor, draft_pk=pk, seen=request.POST.get("seen", ""), **ticked)
    except ValidationError as error:
        messages.warning(request, " ".join(error.messages))
        return redirect("desk:roster_preview", pk=pk)
    told = _("Imported: %(new)s new, %(updated)s updated, %(unchanged)s unchanged, %(error)s left out.") % counts
    messages.success(request, told)
    return redirect(sort.done)


@roles(WRITERS)
@require_POST
def roster_cancel(request: ActorRequest, pk: int) -> HttpResponse:
    draft = find_draft(request.actor, pk)
    actions.drop_draft(actor=request.actor, draft=draft)
    messages.success(request, _("The upload is deleted; nothing was written."))
    return redirect(SORTS[ImportKind(draft.kind)].upload)
