"""Each constraint of the plans' tables, broken once."""

from __future__ import annotations

import pytest

from coachhub.plans.models import PrescriptionSwap, PrescriptionWeek
from tests.constraints import Break, assert_refused, check, twin
from tests.factories import (
    CircuitGroupFactory,
    ExerciseFactory,
    PlanFactory,
    PrescriptionFactory,
    SegmentFactory,
    SessionFactory,
)
from tests.plans.breaks_fit import FIT_BREAKS
from tests.plans.breaks_own import OWN_BREAKS
from tests.plans.breaks_review import REVIEW_BREAKS


def swap() -> PrescriptionSwap:
    return PrescriptionSwap.objects.create(prescription=PrescriptionFactory.create(), exercise=ExerciseFactory.create())


def week() -> PrescriptionWeek:
    return PrescriptionWeek.objects.create(prescription=PrescriptionFactory.create(), week=1)


line = PrescriptionFactory.create
BREAKS = {
    "plan_weeks": check(PlanFactory.create, weeks=53),
    "session_weeks": check(SessionFactory.create, week_from=3, week_to=2),
    "session_day": check(SessionFactory.create, day=15),
    "session_slot": check(SessionFactory.create, slot_minutes=5),
    "segment_kind": check(SegmentFactory.create, kind="lunch"),
    "group_rounds": check(CircuitGroupFactory.create, rounds_min=4, rounds_max=3),
    "group_rest": check(CircuitGroupFactory.create, rest_min_s=90, rest_max_s=60),
    "prescription_ramp_ups": check(line, ramp_up_sets=7),
    "prescription_sets": check(line, sets=21),
    "prescription_rest": check(line, rest_after_s=901),
    "prescription_kind": check(line, dose_kind="laps"),
    "prescription_per": check(line, per="leg"),
    "prescription_range": check(line, low=8, high=6),
    "prescription_load": check(line, load=60, load_unit=""),
    "prescription_rule": check(line, load_rule="fixed"),
    "prescription_rir": check(line, rir_half=13),
    "prescription_swap_once": twin(swap, "prescription", "exercise"),
    "week_once": twin(week, "prescription", "week"),
    "week_range": check(week, week=0),
    "week_percent": check(week, percent=101),
    **FIT_BREAKS,
    **OWN_BREAKS,
    **REVIEW_BREAKS,
}


@pytest.mark.django_db
@pytest.mark.parametrize("name", sorted(BREAKS))
def test_constraint_refuses(name: str) -> None:
    case: Break = BREAKS[name]
    assert_refused(name, case)
