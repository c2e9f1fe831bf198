"""A plan on paper: every session whole, with what differs from week to week."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from django.shortcuts import get_object_or_404

from coachhub.base.actor import Actor
from coachhub.desk.pages.timing import TimePanel
from coachhub.desk.pages.writing import PartRows, part_rows
from coachhub.plans import queries
from coachhub.plans.models import Plan, PrescriptionWeek, Session
from coachhub.plans.tree import Line, SessionTree
from coachhub.plans.week_entry import week_text


@dataclass(frozen=True, slots=True)
class PrintedWeek:
    """`label`: the line it is about."""

    label: str
    name: str
    texts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PrintedSession:
    session: Session
    time: TimePanel
    parts: tuple[PartRows, ...]
    weeks: tuple[int, ...]
    changes: tuple[PrintedWeek, ...]


@dataclass(frozen=True, slots=True)
class PlanPrint:
    plan: Plan
    sessions: tuple[PrintedSession, ...]

    @classmethod
    def of(cls, actor: Actor, pk: int) -> PlanPrint:
        plan = get_object_or_404(Plan.objects.visible_to(actor).select_related("squad"), pk=pk)
        trees = queries.load_plan(plan)
        values = queries.weeks_of(*(tree.session for tree in trees))
        return cls(plan, tuple(_session(tree, values) for tree in trees))


def _session(tree: SessionTree, values: Mapping[tuple[int, int], PrescriptionWeek]) -> PrintedSession:
    weeks = tuple(tree.session.weeks)
    lines = [line for line in tree.lines if any((line.row.pk, week) in values for week in weeks)]
    return PrintedSession(
        tree.session, TimePanel.of(tree), part_rows(tree), weeks, tuple(_weeks(line, weeks, values) for line in lines)
    )


def _weeks(line: Line, weeks: tuple[int, ...], values: Mapping[tuple[int, int], PrescriptionWeek]) -> PrintedWeek:
    rows = [values.get((line.row.pk, week)) for week in weeks]
    texts = tuple(week_text(row, line) if row else "–" for row in rows)
    return PrintedWeek(line.label, line.exercise.name, texts)
