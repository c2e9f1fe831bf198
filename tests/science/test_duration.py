import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachhub.science.duration import block_seconds, shared_rest_seconds, whole_minutes, work_seconds

times = st.integers(0, 600)


@given(works=st.lists(times, min_size=1, max_size=4), rounds=st.integers(1, 9), change=times, rest=times)
def test_one_more_round_adds_its_work_and_a_rest(works: list[int], rounds: int, change: int, rest: int) -> None:
    def block(count: int) -> int:
        return block_seconds(setup_s=60, rounds=count, works_s=works, change_over_s=change, rest_s=rest)

    assert block(rounds + 1) - block(rounds) == sum(works) + change * (len(works) - 1) + rest


def test_single_round_has_no_rest() -> None:
    assert block_seconds(setup_s=30, rounds=1, works_s=[40], change_over_s=15, rest_s=90) == 70


def test_two_sides_double_the_work() -> None:
    assert work_seconds(8, 4, sides=2) == 2 * work_seconds(8, 4)


@pytest.mark.parametrize(("rounds", "works", "rest"), [(0, [30], 60), (3, [], 60), (3, [30], -1), (3, [30, -1], 60)])
def test_block_without_sense_is_refused(rounds: int, works: list[int], rest: int) -> None:
    with pytest.raises(ValueError, match=r"at least one round|cannot be negative"):
        block_seconds(setup_s=0, rounds=rounds, works_s=works, change_over_s=0, rest_s=rest)


@pytest.mark.parametrize(("athletes", "rest"), [(1, 60), (2, 60), (3, 80), (4, 120)])
def test_rest_at_a_shared_station_lets_the_others_work(athletes: int, rest: int) -> None:
    assert shared_rest_seconds(60, athletes=athletes, work_s=40) == rest


def test_station_without_athlete_is_refused() -> None:
    with pytest.raises(ValueError, match="athletes must be 1 or more"):
        shared_rest_seconds(60, athletes=0, work_s=40)


@pytest.mark.parametrize(("seconds", "minutes"), [(0, 0), (1, 1), (60, 1), (61, 2)])
def test_minutes_are_rounded_up(seconds: int, minutes: int) -> None:
    assert whole_minutes(seconds) == minutes
