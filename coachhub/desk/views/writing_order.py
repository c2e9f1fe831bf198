"""Putting a line elsewhere: a step at a time, or where it was dragged to."""

from __future__ import annotations

from typing import Final

from django.http import Http404, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST

from coachhub.base.actor import WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.desk.pages.writing import find_line, open_session, session_url
from coachhub.desk.views.writing import LINE
from coachhub.plans import actions, actions_order
from coachhub.plans.forms import PlaceForm
from coachhub.plans.tree import SessionTree

STEPS: Final[dict[str, actions.Step]] = {"up": -1, "down": 1}


def step_of(way: str) -> actions.Step:
    if way not in STEPS:
        raise Http404
    return STEPS[way]


@roles(WRITERS)
@require_POST
def line_move(request: ActorRequest, pk: int, way: str) -> HttpResponse:
    tree = open_session(request.actor, to_edit=True, **{LINE: pk})
    actions_order.step_line(actor=request.actor, prescription=find_line(tree, pk)[1].row, step=step_of(way))
    return _as_it_was_open(request, tree)


@roles(WRITERS)
@require_POST
def line_place(request: ActorRequest, pk: int) -> HttpResponse:
    tree = open_session(request.actor, to_edit=True, **{LINE: pk})
    form = PlaceForm(request.POST, tree=tree)
    if form.is_valid():
        actions_order.place_line(actor=request.actor, prescription=find_line(tree, pk)[1].row, **form.cleaned_data)
    return _as_it_was_open(request, tree)


def _as_it_was_open(request: ActorRequest, tree: SessionTree) -> HttpResponse:
    return redirect(session_url(tree.session, is_arranging="arrange" in request.GET))
