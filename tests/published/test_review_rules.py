"""The thresholds of the coach's checks that a handbook or a statement prints."""

from __future__ import annotations

from decimal import Decimal

import pytest

from coachhub.coaching.review import COMMON, RULES, read
from tests.coaching.review import written
from tests.published.figures import rows

GOALS = {row["goal"]: row for row in rows("loading_by_goal.csv")}
PRINTED = {row["item"]: row for row in rows("youth_and_supervision.csv")}
HEAVY_GOALS = ("strength", "power_single_effort", "power_multiple_effort")


@pytest.mark.parametrize("goal", HEAVY_GOALS)
def test_rest_of_heavy_work_agrees_with_the_handbook(goal: str) -> None:
    row = GOALS[goal]

    assert (RULES["rest_heavy"].default, RULES["rest_long"].default) == (
        Decimal(row["rest_s_min"]),
        Decimal(row["rest_s_max"]),
    )


def test_rest_of_work_for_muscle_agrees_with_the_handbook() -> None:
    assert RULES["rest_moderate"].default == Decimal(GOALS["hypertrophy"]["rest_s_min"])


@pytest.mark.parametrize("goal", HEAVY_GOALS)
def test_row_of_the_handbook_is_heavy_at_its_least(goal: str) -> None:
    """Its lightest load with its most repetitions."""
    row = GOALS[goal]

    assert is_heavy(row["reps_max"], row["pct_min"])


def test_row_for_muscle_is_not_heavy() -> None:
    """Where the rows touch, at 6 repetitions and 85 %, the heavier one counts."""
    row = GOALS["hypertrophy"]

    assert [is_heavy(row["reps_max"], row["pct_max"]), is_heavy(row["reps_min"], row["pct_min"])] == [False, False]


def is_heavy(reps: str, percent: str) -> bool:
    block = written.rows("A", 3, f"front_squat {reps} @ {percent}%")
    return read(written.session(block)).lines[0].is_heavy


@pytest.mark.parametrize(
    ("rule", "item", "end"),
    [
        ("ratio_to_14", "ratio_to_14", "high"),
        ("ratio_to_17", "ratio_to_17", "high"),
        ("ratio_adults", "ratio_adults", "high"),
        ("youth_sets_novice", "youth_sets_2009", "high"),
        ("youth_reps_few", "youth_reps_2009", "low"),
        ("youth_reps_many", "youth_reps_2009", "high"),
        ("youth_days", "youth_days_2009", "high"),
        ("youth_sets", "youth_sets_2014", "high"),
        ("youth_load_novice", "youth_load_start_2014", "high"),
        ("youth_load", "youth_load_2014", "high"),
    ],
)
def test_threshold_agrees_with_what_is_printed(rule: str, item: str, end: str) -> None:
    assert RULES[rule].default == Decimal(PRINTED[item][end])


def test_days_of_the_young_are_not_consecutive() -> None:
    assert PRINTED["youth_days_2009"]["unit"].startswith("nonconsecutive")
    assert RULES["youth_days_near"].default == 2


def test_every_rule_with_a_source_in_print_is_checked_here() -> None:
    """The rest is common practice, and says so."""
    checked = {"rest_heavy", "rest_moderate", "rest_long"} | {
        rule for rule in RULES if rule.startswith(("ratio_", "youth_")) and rule != "youth_no_day_off"
    }

    assert {code for code, rule in RULES.items() if rule.source != COMMON} == checked
