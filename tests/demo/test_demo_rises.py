"""Nobody in the story rises faster than the rules of DEVELOPERS.md allow; looked at set by set, without `coaching`."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from itertools import groupby, pairwise

import pytest

from coachhub.cards.models import CardLine, KnownBest, SetEntry
from coachhub.coaching.limits import ABOUT_REPS, NOVICE_DAYS, RISE_DAYS
from coachhub.people.models import Athlete
from tests.demo.conftest import Ladders


@dataclass(frozen=True)
class Rise:
    """A day on which more was lifted than ever before for about those reps."""

    athlete: Athlete
    exercise: int
    venue: int
    on_date: date
    before: Decimal
    after: Decimal
    was_clean: bool
    is_new: bool


@dataclass(frozen=True)
class Proof:
    on_date: date
    kg: Decimal
    reps: int | None
    is_clean: bool


@pytest.fixture
def rises(demo: list[str], done: list[SetEntry]) -> list[Rise]:
    everyone = Athlete.objects.in_bulk()
    lows = dict(CardLine.objects.filter(dose_kind="reps").values_list("pk", "low"))
    days = logged_days()
    sets = sorted(done, key=lambda entry: (entry.athlete_id, entry.exercise_id, entry.on_date, entry.pk))
    found: list[Rise] = []
    for (athlete, exercise), own in groupby(sets, key=lambda entry: (entry.athlete_id, entry.exercise_id)):
        proofs = bests(athlete, exercise)
        for on_date, group in groupby(own, key=lambda entry: entry.on_date):
            today = list(group)
            found += rise(everyone[athlete], today, proofs, lows.get(today[0].line_id), len(days[athlete, on_date]))
            proofs += [proof(entry) for entry in today]
    return found


def logged_days() -> dict[tuple[int, date], set[date]]:
    """The days with a set before each day."""
    found: dict[tuple[int, date], set[date]] = {}
    rows = SetEntry.objects.filter(kind="done").order_by("athlete", "on_date").values_list("athlete", "on_date")
    for athlete, own in groupby(rows.distinct(), key=lambda row: row[0]):
        before: set[date] = set()
        for _, on_date in own:
            found[athlete, on_date] = set(before)
            before.add(on_date)
    return found


def bests(athlete: int, exercise: int) -> list[Proof]:
    """What the coach has seen before the first session; later bests are sets of the story."""
    rows = KnownBest.objects.filter(athlete=athlete, exercise=exercise).exclude(source="coach").order_by("on_date")[:1]
    return [Proof(row.on_date, row.load_value, row.reps, False) for row in rows]


def proof(entry: SetEntry) -> Proof:
    marks = entry.marks.all()
    is_clean = bool(marks) and marks[0].quality == "clean"
    return Proof(entry.on_date, entry.load_kg or Decimal(0), entry.reps, is_clean)


def rise(
    athlete: Athlete, today: list[SetEntry], proofs: list[Proof], low: Decimal | None, days: int
) -> Iterator[Rise]:
    least = int(low or 0) - ABOUT_REPS
    before = [one for one in proofs if one.reps is None or one.reps >= least]
    top, after = max((one.kg for one in before), default=None), max(entry.load_kg or Decimal(0) for entry in today)
    if top is not None and after > top:
        on_date = today[0].on_date
        is_new = athlete.is_minor_on(on_date) or athlete.level == "novice" or days < NOVICE_DAYS
        was_clean = any(one.is_clean for one in before if one.kg == top)
        yield Rise(athlete, today[0].exercise_id, today[0].venue_id, on_date, top, after, was_clean, is_new)


def test_story_has_many_rises_of_minors_and_of_adults(rises: list[Rise]) -> None:
    assert min(sum(one.is_new for one in rises), sum(not one.is_new for one in rises)) > 150


def test_no_rise_is_more_than_one_step(rises: list[Rise], ladders: Ladders) -> None:
    def step(one: Rise) -> Decimal | None:
        ladder = ladders[one.venue, one.exercise] or ()
        return next((rung.kg for rung in ladder if rung.kg > one.before), None)

    assert [one for one in rises if one.after != step(one)] == []


def test_minors_and_newcomers_rise_only_after_a_clean_set(rises: list[Rise]) -> None:
    assert [one for one in rises if one.is_new and not one.was_clean] == []


def test_minors_and_newcomers_rise_once_a_week_at_most(rises: list[Rise]) -> None:
    new = sorted((one for one in rises if one.is_new), key=lambda one: (one.athlete.pk, one.exercise, one.on_date))
    week = timedelta(days=RISE_DAYS)
    soon = [
        (one, other)
        for one, other in pairwise(new)
        if (one.athlete, one.exercise) == (other.athlete, other.exercise) and other.on_date - one.on_date < week
    ]

    assert soon == []
