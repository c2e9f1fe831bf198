"""What the list of plans and a plan's page show."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby
from typing import Final

from django.core.paginator import Page, Paginator
from django.http import Http404
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.plans import queries
from coachhub.plans.access import may_edit
from coachhub.plans.forms import PlanFilter
from coachhub.plans.models import Plan, Session

PAGED_AT: Final = 50


@dataclass(frozen=True, slots=True)
class PlansPage:
    pager: Page[Plan]
    is_filtered: bool

    @classmethod
    def of(cls, actor: Actor, form: PlanFilter, number: str) -> PlansPage:
        form.is_valid()  # what is wrong is said beside its field, and filters nothing
        squad, text = form.cleaned_data.get("squad"), form.cleaned_data.get("q", "")
        found = queries.plans_for(actor, squad_id=squad.pk if squad else None, text=text)
        return cls(Paginator(found, PAGED_AT).get_page(number), is_filtered=bool(squad or text))


@dataclass(frozen=True, slots=True)
class Weeks:
    """A stretch of weeks with the sessions that fill it; none where nothing is written yet."""

    first: int
    last: int
    sessions: tuple[Session, ...]

    @property
    def title(self) -> str:
        if self.first == self.last:
            return _("Week %(first)s") % {"first": self.first}
        return _("Weeks %(first)s–%(last)s") % {"first": self.first, "last": self.last}


@dataclass(frozen=True, slots=True)
class GridCell:
    """A day of a week; more than one session where two are meant for the same day. `own`: those with other values."""

    day: int
    sessions: tuple[Session, ...]
    own: frozenset[int]


@dataclass(frozen=True, slots=True)
class GridRow:
    week: int
    cells: tuple[GridCell, ...]


@dataclass(frozen=True, slots=True)
class PlanPage:
    """`undo`: the session that was just put away."""

    plan: Plan
    weeks: tuple[Weeks, ...]
    grid: tuple[GridRow, ...]
    put_away: tuple[Session, ...]
    undo: Session | None
    may_edit: bool

    @property
    def days(self) -> tuple[int, ...]:
        return tuple(cell.day for cell in self.grid[0].cells) if self.grid else ()

    @classmethod
    def of(cls, actor: Actor, pk: int, *, undo: str = "") -> PlanPage:
        plan = get_object_or_404(Plan.objects.visible_to(actor).select_related("squad"), pk=pk)
        put_away = tuple(plan.sessions.exclude(archived_at=None).order_by("-archived_at", "-pk"))
        sessions = list(queries.sessions_of(plan))
        return cls(
            plan,
            in_weeks(plan, sessions),
            weeks_by_days(plan, sessions, queries.weeks_that_differ(plan)),
            put_away,
            next((session for session in put_away if str(session.pk) == undo), None),
            may_edit(actor, plan),
        )


def in_weeks(plan: Plan, sessions: list[Session]) -> tuple[Weeks, ...]:
    """Sessions by the weeks that they share, in order, and the weeks that none covers yet."""
    groups = groupby(sessions, key=lambda session: (session.week_from, session.week_to))
    written = [Weeks(first, last, tuple(rows)) for (first, last), rows in groups]
    covered = {week for one in written for week in range(one.first, one.last + 1)}
    bare = [week for week in range(1, plan.weeks + 1) if week not in covered]
    stretches = (list(run) for _offset, run in groupby(enumerate(bare), key=lambda pair: pair[1] - pair[0]))
    empty = [Weeks(run[0][1], run[-1][1], ()) for run in stretches]
    return tuple(sorted([*written, *empty], key=lambda one: (one.first, one.last)))


def weeks_by_days(plan: Plan, sessions: list[Session], own: set[tuple[int, int]]) -> tuple[GridRow, ...]:
    """Every week of the plan with every day that any session has; nothing while no session is written."""
    days = sorted({session.day for session in sessions})
    if not days:
        return ()
    return tuple(
        GridRow(week, tuple(_grid_cell(sessions, own, week, day) for day in days)) for week in range(1, plan.weeks + 1)
    )


def _grid_cell(sessions: list[Session], own: set[tuple[int, int]], week: int, day: int) -> GridCell:
    there = tuple(one for one in sessions if one.day == day and week in one.weeks)
    return GridCell(day, there, frozenset(one.pk for one in there if (one.pk, week) in own))


@dataclass(frozen=True, slots=True)
class FormPage:
    """A page with one form: its title, where "Cancel" leads, and where what it changes can be put away."""

    title: str
    back_url: str
    remove_url: str = ""


@dataclass(frozen=True, slots=True)
class RemovePage:
    """Asks once before something goes."""

    title: str
    question: str
    button: str
    back_url: str


def editable_plan(actor: Actor, pk: int) -> Plan:
    """404 where the actor may not change it."""
    return get_object_or_404(Plan.objects.editable_by(actor).select_related("squad"), pk=pk)


def editable_session(actor: Actor, pk: int) -> Session:
    """404 where the actor may not change it."""
    session = Session.objects.editable_by(actor).select_related("plan__squad").filter(pk=pk).first()
    if session is None:
        raise Http404
    return session


def plan_url(plan: Plan, *, undo: int | None = None) -> str:
    url = reverse("desk:plan", kwargs={"pk": plan.pk})
    return f"{url}?undo={undo}" if undo else url
