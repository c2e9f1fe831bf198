"""Tables to take along: a session's day, a squad's sets."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from django.shortcuts import get_object_or_404
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.base.tables import Cell
from coachhub.desk.pages.day_table import DayRow, DayTable
from coachhub.insight.summary import LineSummary
from coachhub.people.models import Squad


@dataclass(frozen=True, slots=True)
class SquadSetsPage:
    squad: Squad

    @classmethod
    def of(cls, actor: Actor, pk: int) -> SquadSetsPage:
        return cls(get_object_or_404(Squad.objects.visible_to(actor), pk=pk))


def day_lines(table: DayTable) -> Iterator[Sequence[Cell]]:
    """Return the heading, then a line for each athlete and exercise; effort and minutes stand on each of them."""
    yield (
        _("Athlete"), _("Line"), _("Exercise"), _("Planned"), _("Sets planned"), _("Sets done"), _("Done"),
        _("Best set"), _("Effort"), _("Minutes"),
    )  # fmt: skip
    for row in table.rows:
        for cell in row.cells:
            if cell is not None:
                yield from (_line(row, was, "") for was in cell.before)
                yield _line(row, cell.line, cell.best)


def _line(row: DayRow, line: LineSummary, best: str) -> Sequence[Cell]:
    return (
        row.name,
        line.label,
        line.name,
        line.planned,
        line.asked,
        line.done + line.extra,
        line.done_text,
        best,
        "" if row.effort is None else row.effort,
        "" if row.minutes is None else row.minutes,
    )
