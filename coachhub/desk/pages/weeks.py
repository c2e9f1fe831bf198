"""A session from week to week: one row a line, one cell a week."""

from __future__ import annotations

from dataclasses import dataclass

from django.forms import BoundField
from django.utils.functional import Promise
from django.utils.translation import gettext as _

from coachhub.plans.dose import dose_of, show_dose
from coachhub.plans.forms_weeks import WeeksForm, cell_name
from coachhub.plans.models import Session


@dataclass(frozen=True, slots=True)
class Cell:
    week: int
    field: BoundField
    label: str


@dataclass(frozen=True, slots=True)
class WeekRow:
    label: str
    name: str
    dose: str
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class PartWeeks:
    name: str | Promise
    rows: tuple[WeekRow, ...]


@dataclass(frozen=True, slots=True)
class WeeksPage:
    session: Session
    weeks: tuple[int, ...]
    parts: tuple[PartWeeks, ...]

    @classmethod
    def of(cls, form: WeeksForm) -> WeeksPage:
        parts = []
        for part in form.tree.parts:
            rows = [
                WeekRow(
                    line.label,
                    line.exercise.name,
                    show_dose(dose_of(line.row, block.rounds.low, block.rounds.high)),
                    tuple(_cell(form, line.row.pk, week, line.label) for week in form.weeks),
                )
                for block in part.blocks
                for line in block.lines
            ]
            if rows:
                parts.append(PartWeeks(part.row.get_kind_display(), tuple(rows)))
        return cls(form.tree.session, tuple(form.weeks), tuple(parts))

    @property
    def columns(self) -> int:
        return len(self.weeks) + 1


def _cell(form: WeeksForm, line: int, week: int, label: str) -> Cell:
    text = _("%(label)s in week %(week)s") % {"label": label, "week": week}
    return Cell(week, form[cell_name(line, week)], text)
