from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachhub.science.volume import Lifted, mean_intensity, total_reps, volume_load

lifted = st.tuples(st.decimals(min_value=0, max_value=500, places=2), st.integers(1, 30))


@given(first=st.lists(lifted), second=st.lists(lifted))
def test_volume_of_two_parts_adds_up(first: list[Lifted], second: list[Lifted]) -> None:
    assert volume_load(first + second) == volume_load(first) + volume_load(second)


@given(sets=st.lists(lifted, min_size=1))
def test_mean_intensity_lies_between_the_loads(sets: list[Lifted]) -> None:
    loads = [load for load, _ in sets]
    assert min(loads) <= round(mean_intensity(sets), 10) <= max(loads)


def test_volume_of_nothing_is_zero() -> None:
    assert (volume_load([]), total_reps([])) == (Decimal(0), 0)


def test_mean_intensity_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="no repetition"):
        mean_intensity([(Decimal(60), 0)])


@pytest.mark.parametrize(("load", "reps"), [("-1", 5), ("60", -5), ("NaN", 5)])
def test_negative_work_is_refused(load: str, reps: int) -> None:
    with pytest.raises(ValueError, match="0 or more"):
        volume_load([(Decimal(load), reps)])
