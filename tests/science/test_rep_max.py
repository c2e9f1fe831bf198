import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachhub.science.rep_max import MOST_REPS, PERCENT, one_rm_from_set, percent_for_reps, reps_for_percent


def test_percent_falls_with_every_half_rep() -> None:
    percents = [percent_for_reps(1, half / 2) for half in range(2 * MOST_REPS - 1)]
    assert all(fewer > more for fewer, more in pairwise(percents))


def test_percent_between_twelve_and_fifteen_lies_on_the_line() -> None:
    """Source: linear between 67 and 65, calculated."""
    assert [round(PERCENT[reps], 2) for reps in (13, 14)] == [66.33, 65.67]


@given(reps=st.integers(1, 9), rir=st.integers(0, 6))
def test_reserve_counts_like_reps(reps: int, rir: int) -> None:
    assert percent_for_reps(reps, rir) == percent_for_reps(reps + rir)


@pytest.mark.parametrize(
    ("reps", "rir"), [(0, 0), (-1, 0), (16, 0), (15, 0.5), (10, 6), (5, -1), (5, 0.3), (5, math.inf)]
)
def test_percent_outside_the_table_is_refused(reps: int, rir: float) -> None:
    with pytest.raises(ValueError, match=r"^(reps|rir)"):
        percent_for_reps(reps, rir)


@given(reps=st.integers(1, MOST_REPS))
def test_reps_for_percent_inverts_the_table(reps: int) -> None:
    assert reps_for_percent(percent_for_reps(reps)) == reps


@pytest.mark.parametrize(("percent", "reps"), [(100, 1), (99, 1), (94, 2), (80, 8), (79, 8), (65, 15)])
def test_reps_for_percent_between_rows_stays_below(percent: float, reps: int) -> None:
    assert reps_for_percent(percent) == reps


@pytest.mark.parametrize("percent", [64.9, 100.1, math.nan])
def test_reps_for_percent_outside_the_table_is_refused(percent: float) -> None:
    with pytest.raises(ValueError, match="percent must be from 65 to 100"):
        reps_for_percent(percent)


@pytest.mark.parametrize("load_kg", [0, -1, math.nan])
def test_one_rm_without_load_is_refused(load_kg: float) -> None:
    with pytest.raises(ValueError, match="load_kg must be above 0"):
        one_rm_from_set(load_kg, 5)
