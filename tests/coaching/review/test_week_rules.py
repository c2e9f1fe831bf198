"""The checks of a week: ratios, and hard sets against the phase."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from coachhub.coaching.facts import SessionFacts
from coachhub.coaching.review import PHASES, USUAL, Phase, Target, Thresholds, hard_sets, read, review_week
from tests.coaching.review.written import block as of
from tests.coaching.review.written import hinge_and_press, line, rows, session, squat_and_pull


def week(**sets: int) -> list[SessionFacts]:
    """One session with so many sets of each exercise."""
    return [session(*(of("A", line(f"A1 {name} 8", number)) for name, number in sets.items()))]


RATIOS = [
    ("week_push_pull", {"press_up": 7, "chin_up": 3}, {"press_up": 6, "chin_up": 3}, ("push", "7", "pull", "3")),
    ("week_push_pull", {"press_up": 3, "chin_up": 7}, {"press_up": 3, "chin_up": 6}, ("pull", "7", "push", "3")),
    (
        "week_knee_hip",
        {"goblet": 4, "lunge": 5, "rdl": 4},
        {"goblet": 4, "lunge": 4, "rdl": 4},
        ("knee", "9", "hip", "4"),
    ),
    (
        "week_two_one_leg",
        {"goblet": 5, "rdl": 5, "lunge": 3},
        {"goblet": 4, "rdl": 5, "lunge": 3},
        ("two_legs", "10", "one_leg", "3"),
    ),
]


@pytest.mark.parametrize(("code", "bad", "good", "said"), RATIOS)
def test_lopsided_week_is_noted(
    code: str, bad: dict[str, int], good: dict[str, int], said: tuple[str, str, str, str]
) -> None:
    (found,) = review_week(week(**bad))

    assert (found.code, found.severity, found.suggestion) == (code, "note", "balance")
    assert tuple(dict(found.params).values()) == said
    assert review_week(week(**good)) == ()
    assert review_week(week(**bad), None, Thresholds(off=frozenset({code}))) == ()


def test_week_without_one_side_has_no_ratio_to_print() -> None:
    (found,) = review_week(week(press_up=3))

    assert (found.code, found.found, found.limit) == ("week_push_pull", "", "2")


def test_ratio_of_the_club_goes_before_the_usual() -> None:
    found = review_week(week(press_up=5, chin_up=3), None, Thresholds(values={"week_push_pull": Decimal("1.5")}))

    assert [(one.code, one.found, one.limit) for one in found] == [("week_push_pull", "1.7", "1.5")]


def test_week_of_nothing_has_no_finding() -> None:
    assert review_week([]) == ()


def test_hard_sets_count_the_strength_part_by_its_first_primary_pattern() -> None:
    lines = [one for written in (squat_and_pull(), hinge_and_press()) for one in read(written).lines]

    assert hard_sets(lines) == {"hinge": 7, "squat": 4, "lunge": 6, "push": 7, "pull": 7}


def test_hard_sets_leave_out_what_is_done_if_there_is_time() -> None:
    spare = replace(rows("B", 3, "rdl 8"), is_optional=True)

    assert hard_sets(read(session(rows("A", 2, "rdl 8"), spare)).lines)["hinge"] == 2


PHASE = Phase("power", {"hinge": Target(3, 5)})


@pytest.mark.parametrize(
    ("sets", "about", "suggestion"), [(2, "hinge.few", "more_sets"), (6, "hinge.many", "fewer_sets")]
)
def test_hard_sets_outside_the_phase_are_noted(sets: int, about: str, suggestion: str) -> None:
    off = frozenset({"week_knee_hip", "week_two_one_leg"})

    (found,) = review_week(week(rdl=sets), PHASE, Thresholds(off=off))

    assert (found.code, found.severity, found.about, found.suggestion) == ("week_hard_sets", "note", about, suggestion)
    expected = {"pattern": "hinge", "sets": str(sets), "low": "3", "high": "5", "phase": "power"}
    assert dict(found.params) == expected
    assert review_week(week(rdl=sets), PHASE, Thresholds(off, {"week_hard_sets": Decimal(1)})) == ()


@pytest.mark.parametrize("sets", [3, 5])
def test_hard_sets_at_the_edge_of_the_phase_are_no_finding(sets: int) -> None:
    quiet = Thresholds(off=frozenset({"week_knee_hip", "week_two_one_leg"}))

    assert review_week(week(rdl=sets), PHASE, quiet) == ()


def test_every_phase_has_its_targets() -> None:
    assert tuple(USUAL) == PHASES
    assert all(0 < one.low <= one.high for phase in USUAL.values() for one in phase.targets.values())
