"""Taking a line, a block or a part out of a session: at once, with a way back."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from coachhub.base.actor import WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.desk.pages.writing import block_title, find_block, find_line, find_part, open_session, session_url
from coachhub.desk.views.writing import BLOCK, LINE, PART
from coachhub.plans import actions_removal
from coachhub.plans.actions_removal import GoneError
from coachhub.plans.models import Prescription, Removal, Session


@roles(WRITERS)
@require_POST
def line_remove(request: ActorRequest, pk: int) -> HttpResponse:
    tree = open_session(request.actor, to_edit=True, **{LINE: pk})
    line = find_line(tree, pk)[1]
    title = f"{line.label} {line.exercise.name}"
    return _removed(request, tree.session, actions_removal.remove_prescription, prescription=line.row, title=title)


@roles(WRITERS)
@require_POST
def block_remove(request: ActorRequest, pk: int) -> HttpResponse:
    tree = open_session(request.actor, to_edit=True, **{BLOCK: pk})
    block = find_block(tree, pk)
    names = ", ".join(line.exercise.name for line in block.lines) or _("empty")
    title = f"{block_title(block)}: {names}"
    return _removed(request, tree.session, actions_removal.remove_group, group=block.row, title=title)


@roles(WRITERS)
@require_POST
def part_remove(request: ActorRequest, pk: int) -> HttpResponse:
    tree = open_session(request.actor, to_edit=True, **{PART: pk})
    part = find_part(tree, pk)
    names = ", ".join(line.exercise.name for line in part.lines) or _("empty")
    title = f"{part.row.get_kind_display()}: {names}"
    return _removed(request, tree.session, actions_removal.remove_segment, segment=part.row, title=title)


def _removed(request: ActorRequest, session: Session, remove: Callable[..., Removal], **what: Any) -> HttpResponse:
    """Back to the page as it was open, with the way back on it; nothing to say where somebody was quicker."""
    is_arranging = "arrange" in request.GET
    try:
        removal = remove(actor=request.actor, **what)
    except GoneError:
        return redirect(session_url(session, is_arranging=is_arranging))
    return redirect(session_url(session, is_arranging=is_arranging, undo=removal.pk))


@roles(WRITERS)
@require_POST
def removal_undo(request: ActorRequest, pk: int, removal: int) -> HttpResponse:
    session = get_object_or_404(Session.objects.editable_by(request.actor), pk=pk)
    is_arranging = "arrange" in request.GET
    row = session.removals.filter(pk=removal).first()
    try:
        back = actions_removal.restore(actor=request.actor, removal=row) if row else None
    except GoneError:
        back = None
    if back is None:
        return redirect(session_url(session, is_arranging=is_arranging, is_gone=True))
    at = f"line-{back.pk}" if isinstance(back, Prescription) else ""
    return redirect(session_url(session, at, is_arranging=is_arranging))
