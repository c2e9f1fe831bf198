import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachhub.science.one_rm import Formula, brzycki, epley, lander, lombardi, mayhew, oconner, wathen

FORMULAS = (epley, brzycki, lander, lombardi, mayhew, oconner, wathen)
every_formula = pytest.mark.parametrize("formula", FORMULAS, ids=lambda formula: formula.__name__)
loads = st.floats(min_value=1, max_value=500)


@every_formula
@given(load_kg=loads)
def test_estimate_rises_with_reps(formula: Formula, load_kg: float) -> None:
    estimates = [formula(load_kg, reps) for reps in range(1, 11)]
    assert all(fewer < more for fewer, more in pairwise(estimates))


@every_formula
@given(load_kg=loads, reps=st.integers(1, 10))
def test_estimate_scales_with_load(formula: Formula, load_kg: float, reps: int) -> None:
    assert formula(2 * load_kg, reps) == pytest.approx(2 * formula(load_kg, reps), rel=1e-12)


@every_formula
@pytest.mark.parametrize("reps", [-1, 0, 11])
def test_estimate_outside_reps_is_refused(formula: Formula, reps: int) -> None:
    with pytest.raises(ValueError, match="reps must be a whole number from 1 to 10"):
        formula(100, reps)


@every_formula
@pytest.mark.parametrize("load_kg", [0, -20, math.inf, math.nan])
def test_estimate_without_load_is_refused(formula: Formula, load_kg: float) -> None:
    with pytest.raises(ValueError, match="load_kg must be above 0"):
        formula(load_kg, 5)
