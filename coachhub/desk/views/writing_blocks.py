"""Blocks and parts of a session: add, change, move."""

from __future__ import annotations

from typing import Final

from django.http import HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST

from coachhub.base.actor import WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.coaching.rounds import Rounds
from coachhub.desk.pages.writing import Editor, find_block, find_part, open_session, session_url
from coachhub.desk.views.writing import BLOCK, PART, show
from coachhub.desk.views.writing_order import step_of
from coachhub.plans import actions
from coachhub.plans.forms import GroupForm, SegmentForm

USUAL_ROUNDS: Final = Rounds(3, 3)


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def block(request: ActorRequest, pk: int) -> HttpResponse:
    tree = open_session(request.actor, to_edit=True, **{BLOCK: pk})
    row = find_block(tree, pk).row
    form = GroupForm(request.POST if request.method == "POST" else None, group=row)
    if form.is_valid():
        actions.edit_group(actor=request.actor, group=row, **form.cleaned_data)
        return redirect(session_url(tree.session, f"block-{pk}"))
    return show(request, tree, Editor("block", pk, form, reverse("desk:block", kwargs={"pk": pk})))


@roles(WRITERS)
@require_POST
def block_add(request: ActorRequest, pk: int) -> HttpResponse:
    """A new block at the end of the part, open for its first exercise."""
    tree = open_session(request.actor, to_edit=True, **{PART: pk})
    part = find_part(tree, pk)
    rounds = USUAL_ROUNDS if part.is_lettered else actions.ONE_ROUND
    added = actions.add_group(actor=request.actor, segment=part.row, rounds=rounds)
    return redirect("desk:line_add", pk=added.pk)


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def part(request: ActorRequest, pk: int) -> HttpResponse:
    tree = open_session(request.actor, to_edit=True, **{PART: pk})
    row = find_part(tree, pk).row
    initial = {"kind": row.kind, "minutes": row.minutes}
    form = SegmentForm(request.POST if request.method == "POST" else None, initial=initial)
    if form.is_valid():
        actions.edit_segment(actor=request.actor, segment=row, **form.cleaned_data)
        return redirect(session_url(tree.session, f"part-{pk}"))
    return show(request, tree, Editor("part", pk, form, reverse("desk:part", kwargs={"pk": pk})))


@roles(WRITERS)
@require_POST
def part_add(request: ActorRequest, pk: int) -> HttpResponse:
    """A new part of the session, open for its particulars."""
    tree = open_session(request.actor, to_edit=True, pk=pk)
    form = SegmentForm(request.POST)
    if not form.is_valid():
        return show(request, tree, Editor("new part", pk, form, reverse("desk:part_add", kwargs={"pk": pk})))
    added = actions.add_segment(actor=request.actor, session=tree.session, **form.cleaned_data)
    return redirect(session_url(tree.session, f"part-{added.pk}"))


@roles(WRITERS)
@require_POST
def block_move(request: ActorRequest, pk: int, way: str) -> HttpResponse:
    tree = open_session(request.actor, to_edit=True, **{BLOCK: pk})
    actions.move(actor=request.actor, row=find_block(tree, pk).row, step=step_of(way))
    return redirect(session_url(tree.session, is_arranging=True))


@roles(WRITERS)
@require_POST
def part_move(request: ActorRequest, pk: int, way: str) -> HttpResponse:
    tree = open_session(request.actor, to_edit=True, **{PART: pk})
    actions.move(actor=request.actor, row=find_part(tree, pk).row, step=step_of(way))
    return redirect(session_url(tree.session, is_arranging=True))
