"""The tables of plans and sessions keep themselves honest: each constraint broken once."""

from __future__ import annotations

import pytest

from coachhub.plans.models import PrescriptionSwap, PrescriptionWeek
from tests.constraints import Break, assert_refused, check, refusal, twin
from tests.factories import (
    CircuitGroupFactory,
    ExerciseFactory,
    PlanFactory,
    PrescriptionFactory,
    SegmentFactory,
    SessionFactory,
)

pytestmark = pytest.mark.django_db

session, block, row = SessionFactory.create, CircuitGroupFactory.create, PrescriptionFactory.create


def swap() -> PrescriptionSwap:
    return PrescriptionSwap.objects.create(prescription=row(), exercise=ExerciseFactory.create())


def week() -> PrescriptionWeek:
    return PrescriptionWeek.objects.create(prescription=row(), week=2)


BREAKS: dict[str, Break] = {
    "plan_weeks": check(PlanFactory.create, weeks=53),
    "session_weeks": check(session, week_from=3, week_to=2),
    "session_day": check(session, day=15),
    "session_slot": check(session, slot_minutes=9),
    "segment_kind": check(SegmentFactory.create, kind="x"),
    "group_rounds": check(block, rounds_min=4, rounds_max=3),
    "group_rest": check(block, rest_min_s=120, rest_max_s=90),
    "prescription_ramp_ups": check(row, ramp_up_sets=7),
    "prescription_sets": check(row, sets=21),
    "prescription_rest": check(row, rest_after_s=901),
    "prescription_kind": check(row, dose_kind="x"),
    "prescription_per": check(row, per="x"),
    "prescription_range": check(row, high=5),
    "prescription_load": check(row, load=60),
    "prescription_rule": check(row, load_rule="x"),
    "prescription_rir": check(row, rir_half=13),
    "prescription_swap_once": twin(swap, "prescription", "exercise"),
    "week_once": twin(week, "prescription", "week"),
    "week_range": check(week, week=53),
    "week_percent": check(week, percent=101),
}
# A comparison with an empty column is neither true nor false, and a check lets it pass: each said for itself.
HALVES: dict[str, Break] = {
    "a longest rest without a shortest": check(block, rest_max_s=90),
    "a fixed load without one": check(row, load_rule="fixed"),
    "a percentage without one": check(row, load_rule="percent"),
    "a reserve without one": check(row, load_rule="rir"),
    "words without any": check(row, load_rule="words"),
    "a load of nothing": check(row, load=0, load_unit="kg"),
    "a load in three hands": check(row, hands=3),
    "no amount": check(row, low=0),
}


@pytest.mark.parametrize("name", BREAKS)
def test_constraint_refuses(name: str) -> None:
    assert_refused(name, BREAKS[name])


@pytest.mark.parametrize("name", HALVES)
def test_half_said_dose_is_refused(name: str) -> None:
    assert "check constraint" in refusal(HALVES[name]).lower()
