"""Sessions as a good coach writes them: two blocks of supersets, the five patterns, a jump with its lift."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from coachhub.coaching.facts import SessionFacts
from coachhub.coaching.review import USUAL, Floor, Person, Setting, read, review_floor, review_session, review_week
from tests.coaching.review.written import hinge_and_press, squat_and_pull, whole_body_for_the_young

SLOT = Setting(75)
GYM = {
    "barbell": 5,
    "rack": 3,
    "hex_bar": 3,
    "bench": 4,
    "incline_bench": 3,
    "dumbbell": 40,
    "pull_up_bar": 3,
    "box": 3,
}


@pytest.mark.parametrize("written", [squat_and_pull, hinge_and_press, whole_body_for_the_young])
def test_sound_session_has_no_finding(written: Callable[[], SessionFacts]) -> None:
    assert review_session(written(), SLOT) == ()


def test_sound_session_for_the_young_has_no_finding() -> None:
    for level in ("novice", "intermediate", "advanced"):
        assert review_session(whole_body_for_the_young(), Setting(60, youth=Person(14, level))) == ()


@pytest.mark.parametrize("written", [squat_and_pull, hinge_and_press])
def test_sound_session_fits_the_floor(written: Callable[[], SessionFacts]) -> None:
    squad = Floor(ages=(24,) * 14, staff=2, is_supervised=True, counts=GYM)

    assert review_floor(read(written()), squad) == ()


def test_sound_week_has_no_finding_between_matches() -> None:
    assert review_week([squat_and_pull(), hinge_and_press()], USUAL["in_season"]) == ()
