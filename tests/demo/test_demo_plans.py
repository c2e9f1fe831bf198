"""The plans: what a coach would look for in them. Youth doses: common practice (1 to 3 sets of 6 to 15 repetitions)."""

from __future__ import annotations

import pytest

from coachhub.coaching.coverage import PRIMARY, CoverageLine, coverage
from coachhub.desk.pages.timing import TimePanel
from coachhub.plans.models import Plan, Prescription, PrescriptionWeek, Session
from coachhub.plans.queries import load_session, movements

NAMES = {
    ("In-season strength, six weeks", "Squat and pull"),
    ("In-season strength, six weeks", "Hinge and press"),
    ("In-season strength, Under-18", "Squat and pull"),
    ("In-season strength, Under-18", "Hinge and press"),
    ("Juniors: strong and springy, six weeks", "Squat, press and land"),
    ("Juniors: strong and springy, six weeks", "Hinge, pull and throw"),
}


def session_of(plan: str, name: str) -> Session:
    return Session.objects.get(plan__name=plan, name=name)


def test_each_squad_has_a_plan_of_two_sessions_for_six_weeks(demo: list[str]) -> None:
    sessions = Session.objects.all()

    assert set(sessions.values_list("plan__name", "name")) == NAMES
    assert set(sessions.values_list("week_from", "week_to")) == {(1, 6)}
    assert {1, 2, 4, 5, 6} == set(PrescriptionWeek.objects.values_list("week", flat=True))
    assert Plan.objects.exclude(copied_from=None).get().copied_from == Plan.objects.get(squad__name="Seniors")


@pytest.mark.parametrize(("plan", "name"), sorted(NAMES))
def test_session_covers_the_five_patterns_without_its_optional_blocks(demo: list[str], plan: str, name: str) -> None:
    tree, known = load_session(session_of(plan, name).pk), movements()
    lines = [
        CoverageLine(line.label, part.row.kind, known[line.exercise.pk])
        for part in tree.parts
        for block in part.blocks
        if not block.row.is_optional
        for line in block.lines
        if line.exercise.pk in known
    ]

    assert [c.pattern for c in coverage(lines).primary if c.labels] == list(PRIMARY)


@pytest.mark.parametrize(("plan", "name"), sorted(NAMES))
def test_session_fits_its_slot(demo: list[str], plan: str, name: str) -> None:
    time = TimePanel.of(load_session(session_of(plan, name).pk)).time

    assert time.minutes_without_optional <= time.slot_minutes
    assert [part.kind for part in time.parts if part.is_overfull] == []


def test_lines_heavy_enough_to_ramp_up_have_swaps(demo: list[str]) -> None:
    assert list(Prescription.objects.filter(ramp_up_sets__gt=0, swaps=None)) == []


def test_juniors_lift_no_bar_and_keep_to_youth_doses(demo: list[str]) -> None:
    rows = Prescription.objects.filter(
        group__segment__session__plan__squad__name="Under-15", group__segment__kind="strength"
    ).select_related("exercise", "group")
    counted = [row for row in rows if row.dose_kind == "reps"]

    assert {row.exercise.load_meaning for row in rows} <= {"none", "single", "per_hand", "machine"}
    assert len(counted) > 8
    assert [row for row in counted if not (5 <= row.low <= 15 and row.group.rounds_max <= 3)] == []
    assert [row for row in rows if row.load_rule in ("percent", "rir")] == []
