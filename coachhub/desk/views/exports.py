"""Tables to take along. Who may see a page may take what is on it; each is on record."""

from __future__ import annotations

from django.http import HttpResponse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe

from coachhub.base.actor import READERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.base.table_files import send_table
from coachhub.desk.pages.athletes import find_athlete
from coachhub.desk.pages.day_table import DayTable
from coachhub.desk.pages.exports import SquadSetsPage, day_lines
from coachhub.insight.actions import note_export
from coachhub.insight.forms import SpanForm
from coachhub.insight.logbook import log_lines
from coachhub.insight.queries import done_by, done_in_squad


@roles(READERS)
@require_safe
@never_cache
def day_file(request: ActorRequest, pk: int, form: str) -> HttpResponse:
    table = DayTable.of(request.actor, pk)
    note_export(actor=request.actor, what="the table", row=table.row)
    return send_table(day_lines(table), name=f"session-{table.row.on_date.isoformat()}", form=form)


@roles(READERS)
@require_safe
def squad_sets(request: ActorRequest, pk: int) -> HttpResponse:
    """From which day to which; the form's buttons lead to the files."""
    page, form = SquadSetsPage.of(request.actor, pk), SpanForm(request.GET)
    return render_page(request, "desk/squad_sets.html", page, form=form, status=422 if form.errors else 200)


@roles(READERS)
@require_safe
@never_cache
def squad_sets_file(request: ActorRequest, pk: int, form: str) -> HttpResponse:
    page, asked = SquadSetsPage.of(request.actor, pk), SpanForm(request.GET)
    if not asked.is_valid():
        return render_page(request, "desk/squad_sets.html", page, form=asked, status=422)
    first, last = asked.span
    note_export(actor=request.actor, what=f"sets from {first} to {last}", row=page.squad)
    rows = done_in_squad(request.actor, page.squad, first, last)
    return send_table(log_lines(rows), name=f"sets-{first}-to-{last}", form=form)


@roles(READERS)
@require_safe
@never_cache
def history_file(request: ActorRequest, pk: int, form: str) -> HttpResponse:
    athlete = find_athlete(request.actor, pk)
    note_export(actor=request.actor, what="history", row=athlete)
    return send_table(log_lines(done_by(athlete)), name=f"history-{athlete.pk}", form=form)
