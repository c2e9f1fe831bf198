"""A squad's plan laid on its calendar: what would be given, what would move, what stays and what finds no place."""

from __future__ import annotations

import hashlib
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, time, timedelta
from typing import Any, cast

from django.db.models import Count, Q, QuerySet

from coachhub.base.clock import today
from coachhub.cards.models import Assignment
from coachhub.coaching.facts import note
from coachhub.coaching.fitting import (
    Fit,
    FitRule,
    Opening,
    Placed,
    Season,
    ToPlace,
    Unplaced,
    fit,
    week_start,
)
from coachhub.coaching.series import HOLIDAY, days_between, monday_of
from coachhub.people.models import Squad
from coachhub.plans.models import Plan, Session
from coachhub.plans.queries_fit import heavy_for_legs, rules_of
from coachhub.season.queries import Span, span_of_squads

# Matches this near to the plan's weeks still matter to their days.
_MARGIN = timedelta(weeks=1)

Slot = tuple[int, int]  # session and week of the plan


@dataclass(frozen=True, slots=True)
class Standing:
    """A session of the plan that is given already. `is_fixed`: begun, or its day is over."""

    assignment: Assignment
    is_fixed: bool


@dataclass(frozen=True, slots=True)
class PlanFit:
    """`unplaced` may stand somewhere already: then it stays there until the coach decides."""

    starts_on: date
    placed: tuple[Placed, ...]
    unplaced: tuple[Unplaced, ...]
    standing: Mapping[Slot, Standing]
    matches: tuple[date, ...]
    sessions: Mapping[int, Session]
    venues: Mapping[int, str]

    @property
    def moves(self) -> tuple[Placed, ...]:
        return tuple(one for one in self.placed if slot_of(one.session) in self.standing and not self.stays(one))

    @property
    def new(self) -> tuple[Placed, ...]:
        return tuple(one for one in self.placed if slot_of(one.session) not in self.standing)

    @property
    def digest(self) -> str:
        """The same for the same changes: what was looked at is what is written."""
        stands = [(key, one.assignment.pk) for key, one in sorted(self.standing.items())]
        return hashlib.sha256(repr((self.starts_on, self.moves, self.new, stands)).encode()).hexdigest()

    def stays(self, one: Placed) -> bool:
        """It is given already, on that very day at that venue."""
        given = self.standing.get(slot_of(one.session))
        where = (one.opening.on, one.opening.venue_id)
        return given is not None and where == (given.assignment.on_date, given.assignment.venue_id)


def slot_of(one: ToPlace) -> Slot:
    return one.session_id, one.week


def start_of(plan: Plan) -> date:
    """The Monday of week 1 as the plan is given already; else of the coming week."""
    coming = _given(Q(session__plan=plan, squad=plan.squad_id, on_date__gte=today()))
    row = coming.order_by("on_date", "pk").first()
    if row is None:
        return monday_of(today()) + timedelta(weeks=1)
    return week_start(row.on_date, 1) - timedelta(weeks=row.week - 1)


def plans_under_way(squad: Squad) -> list[Plan]:
    """The squad's plans of which something is given for today or later."""
    coming = _given(Q(squad=squad, on_date__gte=today(), session__plan__squad=squad))
    return list(Plan.objects.live().filter(pk__in=coming.values("session__plan")))


def fit_plan(plan: Plan, squad: Squad, starts_on: date) -> PlanFit:
    """In the same queries for one session or thirty; nothing is written.

    Only days from today on are filled. What is begun, or stands on a day that is over, is left and keeps its day.
    """
    first = week_start(starts_on, 1) - _MARGIN
    last = week_start(starts_on, plan.weeks) + 2 * _MARGIN
    sessions = {row.pk: row for row in plan.sessions.live()}
    coming = Q(session__plan=plan, on_date__gte=today())
    given = list(_given(Q(squad=squad) & (Q(on_date__range=(first, last)) | coming)))
    asked = _weeks_of(sessions.values(), plan.weeks)
    heavy = heavy_for_legs({(row.session_id, row.week) for row in given} | set(asked))
    standing = _standing([row for row in given if row.session_id in sessions and _is_of_this_round(row, starts_on)])
    open_ones = [
        _to_place(sessions[pk], week, is_heavy=(pk, week) in heavy)
        for pk, week in asked
        if week_start(starts_on, week) + _MARGIN > today() and not _is_fixed(standing, (pk, week))
    ]
    span = span_of_squads([squad.pk], first, last)
    calendar = _Calendar(starts_on, span, given, standing, heavy, rules_of(squad))
    placed = calendar.fitted(open_ones)
    return PlanFit(
        starts_on,
        placed.placed,
        placed.unplaced,
        standing,
        tuple(sorted({one.on_date for one in span.matches})),
        sessions,
        {one.venue_id: one.place for one in span.slots if one.venue_id is not None},
    )


@dataclass(frozen=True, slots=True)
class _Calendar:
    starts_on: date
    span: Span
    given: Sequence[Assignment]
    standing: Mapping[Slot, Standing]
    heavy: Collection[Slot]
    rules: Sequence[FitRule]

    def fitted(self, sessions: Sequence[ToPlace]) -> Fit:
        """What stands somewhere and finds no place stays there, and the others go round it."""
        found = fit(sessions, self._season(sessions), self.rules)
        placed = {slot_of(one.session) for one in found.placed}
        stuck = {slot_of(one) for one in sessions if slot_of(one) in self.standing} - placed
        if not stuck:
            return found
        rest = self.fitted([one for one in sessions if slot_of(one) not in stuck])
        told = {slot_of(one.session): one for one in found.unplaced}
        left = [
            told.get(slot_of(one)) or Unplaced(one, (note("other_week"),)) for one in sessions if slot_of(one) in stuck
        ]
        return Fit(rest.placed, (*left, *rest.unplaced))

    def _season(self, sessions: Sequence[ToPlace]) -> Season:
        movable = {
            slot_of(one): self.standing[slot_of(one)].assignment for one in sessions if slot_of(one) in self.standing
        }
        moving = {row.pk for row in movable.values()}
        staying = [row for row in _for_most(self.given) if row.pk not in moving]
        return Season(
            starts_on=self.starts_on,
            openings=tuple(_openings(self.span)),
            matches=tuple(sorted({one.on_date for one in self.span.matches})),
            closed=_closed(self.span) | {row.on_date: "given" for row in staying if row.on_date >= today()},
            standing={key: row.on_date for key, row in movable.items()},
            heavy_days=frozenset(row.on_date for row in staying if (row.session_id, row.week) in self.heavy),
        )


def _given(where: Q) -> QuerySet[Assignment, Any]:
    """With `size` cards, of which `begun`."""
    begun = Count("cards", filter=Q(cards__started_at__isnull=False))
    return Assignment.objects.live().filter(where).annotate(size=Count("cards"), begun=begun).order_by("on_date", "pk")


def _for_most(given: Sequence[Any]) -> list[Assignment]:
    """What is given to a few only takes nobody else's day."""
    most = max((row.size for row in given), default=0)
    return [row for row in given if row.size * 2 >= most]


def _standing(given: Iterable[Any]) -> dict[Slot, Standing]:
    """Of several assignments of one session in one week the one with the most cards."""
    found: dict[Slot, Any] = {}
    for row in given:
        key = (row.session_id, row.week)
        if key not in found or row.size > found[key].size:
            found[key] = row
    return {key: Standing(row, row.begun > 0 or row.on_date < today()) for key, row in found.items()}


def _is_of_this_round(row: Assignment, starts_on: date) -> bool:
    """A plan may have been given before: what is over counts only near the week that it now has."""
    monday = week_start(starts_on, row.week)
    return row.on_date >= today() or monday - _MARGIN <= row.on_date < monday + 2 * _MARGIN


def _is_fixed(standing: Mapping[Slot, Standing], key: Slot) -> bool:
    return key in standing and standing[key].is_fixed


def _weeks_of(sessions: Iterable[Session], weeks: int) -> list[Slot]:
    return [(row.pk, week) for row in sessions for week in row.weeks if week <= weeks]


def _to_place(session: Session, week: int, *, is_heavy: bool) -> ToPlace:
    role, variant = cast(Any, str(session.role)), cast(Any, str(session.variant))
    return ToPlace(session.pk, week, session.day, role, session.slot_minutes, is_heavy, variant)


def _openings(span: Span) -> Iterable[Opening]:
    for one in span.slots:
        if one.on_date >= today() and one.venue_id is not None:
            yield Opening(one.on_date, one.starts_at or time(), one.minutes or 0, one.venue_id, one.pk)


def _closed(span: Span) -> dict[date, str]:
    """Holidays, but not a day on which the squad has an hour all the same."""
    hours = {one.on_date for one in span.slots}
    days = (day for one in span.of_kind(HOLIDAY) for day in days_between(one.on_date, one.to_on))
    return {day: "holiday" for day in days if day not in hours}
