from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.views.decorators.http import require_POST, require_safe

from coachhub.base.actor import READERS, WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.desk.pages.cards_assignment import assignment_url
from coachhub.desk.pages.day_table import DayTable
from coachhub.insight.actions import read_note
from coachhub.insight.models import SessionNote


@roles(READERS)
@require_safe
def day_table(request: ActorRequest, pk: int) -> HttpResponse:
    """A session's lines against its athletes; `?sort=` takes a heading."""
    page = DayTable.of(request.actor, pk, request.GET.get("sort", ""))
    return render_page(request, "desk/day_table.html", page, partial="table")


@roles(WRITERS)
@require_POST
def note_read(request: ActorRequest, pk: int) -> HttpResponse:
    """From Today back to Today, else to the session that the note is about."""
    notes = SessionNote.objects.visible_to(request.actor).select_related("card")
    note = get_object_or_404(notes, pk=pk)
    read_note(actor=request.actor, note=note)
    return redirect("desk:today" if request.POST.get("from") == "today" else assignment_url(note.card.assignment_id))
