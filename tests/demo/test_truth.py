"""The strength behind the story. Its figures are the demo's own judgement; the table is science.rep_max's."""

from __future__ import annotations

import pytest

from coachhub.demo.truth import DAY_NOISE, GAIN_A_WEEK, Ability, load_for, most_reps

NOVICE = Ability("20 anyone", 1.0, "novice")


def test_ability_is_the_same_for_the_same_day_and_differs_from_day_to_day() -> None:
    first, again, later = (NOVICE.max_kg("front-squat", 54, session) for session in (3, 3, 4))

    assert (first == again, first == later) == (True, False)


@pytest.mark.parametrize("session", range(25))
def test_ability_stays_within_a_days_noise_of_its_drift(session: int) -> None:
    drift = 54 * (1 + GAIN_A_WEEK["novice"] * session / 2)

    assert abs(NOVICE.max_kg("front-squat", 54, session) / drift - 1) <= DAY_NOISE


def test_the_new_gain_more_than_the_trained() -> None:
    gains = [Ability("x", 1.0, level).max_kg("x", 100, 24) for level in ("novice", "intermediate", "advanced")]

    assert gains == sorted(gains, reverse=True)


@pytest.mark.parametrize(
    ("load_kg", "reps"), [(100, 1), (95, 2), (87, 5), (86.9, 5), (80, 8), (75, 10), (65, 15), (20, 15), (101, 0)]
)
def test_most_reps_go_by_the_rep_max_table(load_kg: float, reps: int) -> None:
    assert most_reps(load_kg, 100) == reps


@pytest.mark.parametrize("reps", range(1, 16))
def test_load_for_reps_allows_just_them(reps: int) -> None:
    assert most_reps(load_for(reps, 100), 100) == reps
