"""The page on which a session is written, and the writing of its lines.

A line's own address is that same page with the line open; saving leads back to the page.
"""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from coachhub.base.actor import READERS, WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.desk.pages.review import line_remarks
from coachhub.desk.pages.timing import TimePanel
from coachhub.desk.pages.writing import (
    Editor,
    EditorKind,
    SessionPage,
    Shown,
    find_block,
    find_line,
    open_session,
    session_url,
)
from coachhub.plans import actions_lines
from coachhub.plans.forms_line import LineForm, in_other_shape
from coachhub.plans.queries import exercise_picker
from coachhub.plans.reading import read_dose
from coachhub.plans.tree import Block, Line, SessionTree

PART = "segments"
BLOCK = "segments__groups"
LINE = "segments__groups__prescriptions"


@roles(READERS)
@require_safe
def session(request: ActorRequest, pk: int) -> HttpResponse:
    tree = open_session(request.actor, pk=pk)
    return show(request, tree, shown=Shown.of(request.GET.dict()))


def show(
    request: ActorRequest, tree: SessionTree, editor: Editor | None = None, shown: Shown | None = None
) -> HttpResponse:
    """The page, or for htmx the part of it that is worked on."""
    page = SessionPage.of(request.actor, tree, editor=editor, shown=shown)
    return render_page(request, "desk/session.html", page, partial="work", status=editor.status if editor else 200)


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def line(request: ActorRequest, pk: int) -> HttpResponse:
    tree = open_session(request.actor, to_edit=True, **{LINE: pk})
    block, row = find_line(tree, pk)
    form = line_form(request, block, row)
    if form.is_bound and form.is_valid():
        actions_lines.edit_prescription(actor=request.actor, prescription=row.row, **form.values)
        return redirect(session_url(tree.session, f"line-{pk}"))
    return show(request, tree, line_editor("line", pk, form, "desk:line"))


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def line_add(request: ActorRequest, pk: int) -> HttpResponse:
    """A new line at the end of the block; after it the next one is open at once."""
    tree = open_session(request.actor, to_edit=True, **{BLOCK: pk})
    block = find_block(tree, pk)
    form = line_form(request, block, None)
    if form.is_bound and form.is_valid():
        actions_lines.add_prescription(actor=request.actor, group=block.row, **form.values)
        return redirect("desk:line_add", pk=pk)
    return show(request, tree, line_editor("add", pk, form, "desk:line_add"))


@roles(WRITERS)
@require_safe
def line_options(request: ActorRequest, pk: int) -> HttpResponse:
    """Swaps and directions of the exercise that has just been picked, for the block's open line."""
    block = find_block(open_session(request.actor, to_edit=True, **{BLOCK: pk}), pk)
    form = LineForm(block=block, line=open_line(request, block), initial={"exercise": request.GET.get("exercise", "")})
    return render(request, "desk/session_line.html#options", {"form": form})


@roles(WRITERS)
@require_safe
def dose_check(request: ActorRequest, pk: int) -> HttpResponse:
    """What the typed dose comes to in this block, or the error with the characters it is about."""
    tree = open_session(request.actor, to_edit=True, **{BLOCK: pk})
    block = find_block(tree, pk)
    own = open_line(request, block)
    reading = read_dose(request.GET.get("notation", ""), block, is_only_line=len(block.lines) <= (own is not None))
    time = TimePanel.with_line(tree, block, own, reading.dose) if reading.dose else None
    remarks = line_remarks(tree, block, own, reading.dose) if reading.dose else ()
    shown = {"reading": reading if reading.text.strip() else None, "time": time, "remarks": remarks}
    return render(request, "desk/dose_check.html", shown)


@roles(WRITERS)
@require_safe
def exercise_matches(request: ActorRequest) -> HttpResponse:
    found = exercise_picker(request.GET.get("q", ""), segment=request.GET.get("segment", ""))
    return render(request, "desk/exercise_matches.html", {"found": found})


def open_line(request: ActorRequest, block: Block) -> Line | None:
    """The line that is open; None for a new one."""
    return next((one for one in block.lines if str(one.row.pk) == request.GET.get("line")), None)


def line_form(request: ActorRequest, block: Block, row: Line | None) -> LineForm:
    if request.method != "POST":
        named = request.GET.get("exercise")
        return LineForm(block=block, line=row, initial={"exercise": named} if named else None)
    if "switch" in request.POST:
        return in_other_shape(request.POST, request.POST["switch"], block=block, line=row)
    return LineForm(request.POST, block=block, line=row)


def line_editor(kind: EditorKind, pk: int, form: LineForm, url_name: str) -> Editor:
    form.focus()
    return Editor(kind, pk, form, reverse(url_name, kwargs={"pk": pk}), form.shown_reading)
