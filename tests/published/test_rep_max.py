"""Source: NSCA Essentials, 4th ed., Table 17.7 (11 and 12 from memory); reserve calculated from it."""

import pytest

from coachhub.science.rep_max import one_rm_from_set, percent_for_reps
from tests.published.figures import rows


@pytest.mark.parametrize(("reps", "percent"), [(r["reps"], r["pct_1rm"]) for r in rows("rep_max_table.csv")])
def test_percent_agrees_with_print(reps: str, percent: str) -> None:
    assert percent_for_reps(int(reps)) == float(percent)


@pytest.mark.parametrize(
    ("reps", "rir", "percent"), [(r["reps"], r["rir"], r["pct_1rm"]) for r in rows("rir_pct_table.csv")]
)
def test_percent_with_reserve_agrees_with_the_table(reps: str, rir: str, percent: str) -> None:
    assert f"{percent_for_reps(int(reps), float(rir)):.2f}" == percent


@pytest.mark.parametrize(("load_kg", "reps", "expected"), [(80, 8, 100.0), (60, 6, 70.588)])
def test_one_rm_from_set_agrees_with_the_calculation(load_kg: float, reps: int, expected: float) -> None:
    assert round(one_rm_from_set(load_kg, reps), 3) == expected
