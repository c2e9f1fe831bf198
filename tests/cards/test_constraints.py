"""The tables of cards and facts keep themselves honest: each constraint broken once."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from uuid import uuid4

import pytest
from django.db.models import F

from coachhub.base.clock import now, today
from coachhub.cards.models import (
    AssignmentRun,
    Attendance,
    BarHeight,
    CardCopy,
    CopyAnswer,
    DoorChange,
    PairWish,
    RunStep,
    SetMark,
    StationPlace,
    StrengthEstimate,
)
from tests.constraints import Break, assert_refused, check, refusal, twin
from tests.factories import (
    AssignmentFactory,
    AthleteFactory,
    CardFactory,
    CardLineFactory,
    CardRevisionFactory,
    ExerciseFactory,
    KnownBestFactory,
    SetEntryFactory,
    UserFactory,
    VenueFactory,
)

pytestmark = pytest.mark.django_db

line, entry, best = CardLineFactory.create, SetEntryFactory.create, KnownBestFactory.create


def attendance() -> Attendance:
    return Attendance.objects.create(card=CardFactory.create(), status="present", noted_at=now())


def copy() -> CardCopy:
    return CardCopy.objects.create(card=CardFactory.create(), revision_number=1, kind="printed", made_at=now())


def copy_answer() -> CopyAnswer:
    return CopyAnswer.objects.create(copy=copy(), kind="seen", said_by=UserFactory.create(), said_at=now())


def mark() -> SetMark:
    return SetMark.objects.create(entry=entry(), quality="clean", marked_at=now(), marked_by=UserFactory.create())


def estimate() -> StrengthEstimate:
    """Wherever the athlete trains."""
    return StrengthEstimate.objects.create(
        athlete=AthleteFactory.create(),
        exercise=ExerciseFactory.create(),
        kg=Decimal(100),
        low_kg=Decimal(95),
        high_kg=Decimal(105),
        as_of_on=today(),
    )


def estimate_at_a_venue() -> StrengthEstimate:
    made = estimate()
    made.venue = VenueFactory.create()
    made.save()
    return made


def door_change() -> DoorChange:
    return DoorChange.objects.create(uuid=uuid4(), assignment=AssignmentFactory.create(), steps=[], made_at=now())


def station() -> StationPlace:
    return StationPlace.objects.create(card=CardFactory.create(), number=1, placed_at=now())


def wish() -> PairWish:
    first, other = AthleteFactory.create(), AthleteFactory.create()
    return PairWish.objects.create(athlete=first, other=other, kind="apart", from_on=today())


def bar_height() -> BarHeight:
    return BarHeight.objects.create(
        athlete=AthleteFactory.create(),
        exercise=ExerciseFactory.create(),
        venue=VenueFactory.create(),
        hole=9,
        noted_at=now(),
    )


def run() -> AssignmentRun:
    return AssignmentRun.objects.create(uuid=uuid4(), athlete_ids=[], started_by=UserFactory.create(), started_at=now())


def run_step() -> RunStep:
    assignment = AssignmentFactory.create()
    return RunStep.objects.create(
        run=run(), position=0, session=assignment.session, week=1, on_date=today(), venue=assignment.venue
    )


BREAKS: dict[str, Break] = {
    "assignment_week": check(AssignmentFactory.create, week=0),
    "one_card_each": twin(CardFactory.create, "assignment", "athlete"),
    "revision_once": twin(CardRevisionFactory.create, "card", "number"),
    "revision_number": check(CardRevisionFactory.create, number=0),
    "revision_reason": check(CardRevisionFactory.create, reason="x"),
    "line_once": twin(line, "revision", "line_key"),
    "line_status": check(line, status="x"),
    "line_segment": check(line, segment="x"),
    "line_load_meaning": check(line, load_meaning="x"),
    "line_dose_kind": check(line, dose_kind="x"),
    "line_per": check(line, per="x"),
    "line_load_rule": check(line, load_rule="x"),
    "line_load": check(line, load_value=60, load_unit=""),
    "attendance_status": check(attendance, status="x"),
    "attendance_minutes_left": check(attendance, minutes_left=20),
    "AssignmentRun.uuid": twin(run, "uuid"),
    "run_step_once": twin(run_step, "run", "position"),
    "run_step_state": check(run_step, state="x"),
    "run_step_week": check(run_step, week=0),
    "run_step_done_with_assignment": check(run_step, state="done"),
    "DoorChange.uuid": twin(door_change, "uuid"),
    "station_number": check(station, number=0),
    "wish_kind": check(wish, kind="x"),
    "wish_pair_in_order": check(wish, other=F("athlete")),
    "wish_ends_after": check(wish, ended_on=today() - timedelta(days=1)),
    "one_standing_wish_a_pair": twin(wish, "athlete", "other"),
    "bar_height_hole": check(bar_height, hole=0),
    "copy_kind": check(copy, kind="x"),
    "copy_answer_kind": check(copy_answer, kind="x"),
    "CopyAnswer.copy": twin(copy_answer, "copy"),
    "SetEntry.uuid": twin(entry, "uuid"),
    "entry_kind": check(entry, kind="x"),
    "entry_side": check(entry, side="x"),
    "entry_seq": check(entry, seq=0),
    "entry_round": check(entry, round=41),
    "entry_rir": check(entry, rir_half=21),
    "entry_load_with_unit": check(entry, load_value=60),
    "entry_done_has_amount": check(entry, reps=None),
    "mark_quality": check(mark, quality="x"),
    "best_load_positive": check(best, load_value=0),
    "best_reps": check(best, reps=31),
    "best_rir": check(best, rir_half=13),
    "best_unit": check(best, load_unit="x"),
    "best_source": check(best, source="x"),
    "estimate_once_a_venue": twin(estimate_at_a_venue, "athlete", "exercise", "venue"),
    "estimate_once_anywhere": twin(estimate, "athlete", "exercise"),
    "estimate_low": check(estimate, kg=94),
    "estimate_high": check(estimate, kg=106),
}
# A comparison with an empty column is neither true nor false, and a check lets it pass: each said for itself.
HALVES: dict[str, Break] = {
    "no load, yet a unit": check(entry, load_unit="kg"),
    "no load, yet kilograms": check(entry, load_kg=60),
    "kilograms and a unit without what was seen": check(entry, load_unit="kg", load_kg=60),
    "a load without kilograms": check(entry, load_value=60, load_unit="kg"),
    "a planned load of nothing": check(line, load_value=0, load_unit="kg"),
    "an estimate whose band begins at nothing": check(estimate, low_kg=0),
}


@pytest.mark.parametrize("name", BREAKS)
def test_constraint_refuses(name: str) -> None:
    assert_refused(name, BREAKS[name])


@pytest.mark.parametrize("name", HALVES)
def test_half_said_fact_is_refused(name: str) -> None:
    assert "check constraint" in refusal(HALVES[name]).lower()
