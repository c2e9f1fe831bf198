"""Source: the papers named in data/README.md, calculated to four decimal places."""

import pytest

from coachhub.science.one_rm import MOST_REPS, brzycki, epley, lander, lombardi, mayhew, oconner, wathen
from tests.published.figures import rows

# epley_0333 and brzycki_decimal are rounded printings of the same two formulas.
FORMULAS = {
    "epley_1985": epley,
    "brzycki_1993": brzycki,
    "lander_1985": lander,
    "lombardi_1989": lombardi,
    "mayhew_1992": mayhew,
    "oconner_1989": oconner,
    "wathan_1994": wathen,
}
CHECKS = [
    (row["formula"], float(row["load"]), int(row["reps"]), float(row["e1rm"]))
    for row in rows("one_rm_checks.csv")
    if row["formula"] in FORMULAS
]


@pytest.mark.parametrize(("name", "load_kg", "reps", "expected"), [c for c in CHECKS if 1 < c[2] <= MOST_REPS])
def test_estimate_agrees_with_print(name: str, load_kg: float, reps: int, expected: float) -> None:
    assert round(FORMULAS[name](load_kg, reps), 4) == pytest.approx(expected, abs=1e-4)


@pytest.mark.parametrize(("name", "load_kg", "reps"), [c[:3] for c in CHECKS if c[2] == 1])
def test_estimate_at_one_rep_is_the_load(name: str, load_kg: float, reps: int) -> None:
    assert FORMULAS[name](load_kg, reps) == load_kg


@pytest.mark.parametrize(("name", "load_kg", "reps"), [c[:3] for c in CHECKS if c[2] > MOST_REPS])
def test_estimate_outside_the_valid_range_is_refused(name: str, load_kg: float, reps: int) -> None:
    with pytest.raises(ValueError, match="from 1 to 10"):
        FORMULAS[name](load_kg, reps)


def test_checks_cover_every_formula() -> None:
    assert {name for name, *_ in CHECKS} == set(FORMULAS)


def test_epley_and_brzycki_meet_at_ten() -> None:
    """Source: both formulas give 4/3 of the load at ten repetitions."""
    assert epley(100, 10) == pytest.approx(brzycki(100, 10), rel=1e-12)
