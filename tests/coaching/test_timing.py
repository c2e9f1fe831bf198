"""Expected seconds are added up by hand beside each case."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachhub.coaching.notation import Dose, parse
from coachhub.coaching.timing import BlockTime, TimedBlock, TimedLine, TimedPart, time_session
from tests.coaching.doses import doses


def line(dose: str, sets: int = 3, **more: Any) -> TimedLine:
    return TimedLine(parse(dose), sets, **more)


def block(*lines: TimedLine, rounds: int = 3, rest_s: int | None = 60, **more: Any) -> TimedBlock:
    return TimedBlock("A", rounds, lines, rest_s, **more)


def timed(one: TimedBlock) -> BlockTime:
    return time_session([TimedPart("strength", (one,))], 60).parts[0].blocks[0]


@pytest.mark.parametrize(
    ("dose", "one_set"),
    [
        ("8", 24),
        ("6-8", 24),
        ("8/side", 48),
        ("10 t3110", 50),
        ("5 t20X1", 20),
        ("30 s", 30),
        ("30 s hold/side", 60),
        ("20 m", 20),
        ("10 contacts", 20),
    ],
)
def test_set_takes_its_amount_at_the_upper_end(dose: str, one_set: int) -> None:
    assert timed(block(line(dose, sets=1), rounds=1)).seconds == 30 + one_set


def test_directions_count_each() -> None:
    assert timed(block(line("4/direction", sets=1, directions=3), rounds=1)).seconds == 30 + 3 * 4 * 3


def test_rest_after_an_exercise_holds_the_way_to_the_next() -> None:
    pair = block(line("8", rest_after_s=90), line("8"), rest_s=120)

    assert timed(pair).seconds == 30 + 3 * (24 + 90 + 24) + 2 * 120


def test_straight_through_still_takes_the_way() -> None:
    assert timed(block(line("8"), line("8"), rest_s=None)).seconds == 30 + 3 * (24 + 15 + 24) + 2 * 15


def test_rest_after_the_last_exercise_is_rest_between_rounds() -> None:
    assert timed(block(line("8", rest_after_s=90), rest_s=None)).seconds == 30 + 3 * 24 + 2 * 90


def test_bar_takes_longer_to_set_up_and_to_change_to() -> None:
    bar = replace(line("8"), is_loaded_up=True)

    assert timed(block(bar, line("8"))).seconds == 60 + 3 * (24 + 30 + 24) + 2 * 60


def test_line_with_fewer_sets_leaves_the_later_rounds() -> None:
    pair = block(line("8"), line("8", sets=2))

    assert timed(pair).seconds == 30 + 2 * (24 + 15 + 24) + 24 + 2 * 60


def test_ramp_ups_come_before_the_rounds_each_with_a_rest() -> None:
    assert timed(block(line("8", ramp_up_sets=2))).seconds == 30 + 2 * (15 + 60) + 3 * 24 + 2 * 60


def test_ramp_ups_have_no_more_repetitions_than_the_set() -> None:
    assert timed(block(line("3", ramp_up_sets=1))).seconds == 30 + (9 + 60) + 3 * 9 + 2 * 60


def test_rest_after_a_block_counts_unless_it_is_the_last() -> None:
    one = block(line("8", sets=1), rounds=1, rest_after_s=120)
    session = time_session([TimedPart("strength", (one, replace(one, label="B")))], 60)

    assert [found.seconds for found in session.parts[0].blocks] == [30 + 24 + 120, 30 + 24]


def test_empty_block_takes_no_time() -> None:
    assert timed(block()) == BlockTime("A", 0, is_optional=False, has_no_rest=False)


@pytest.mark.parametrize(
    ("one", "has_no_rest"),
    [
        (block(line("8"), rest_s=None), True),
        (block(line("8"), rest_s=0), False),
        (block(line("8", sets=1), rounds=1, rest_s=None), False),
        (block(line("8", rest_after_s=60), rest_s=None), False),
    ],
)
def test_block_of_several_rounds_without_any_rest_is_named(one: TimedBlock, has_no_rest: bool) -> None:
    assert timed(one).has_no_rest is has_no_rest


def test_fixed_minutes_go_before_what_is_written() -> None:
    one = block(line("8"))
    part = time_session([TimedPart("warm_up", (one,), 3)], 60).parts[0]

    assert (part.minutes, part.written_s, part.is_overfull) == (3, 222, True)
    assert time_session([TimedPart("warm_up", (one,), 4)], 60).parts[0].is_overfull is False


def test_session_says_what_is_free_over_and_without_the_optional_block() -> None:
    one = block(line("60 s", sets=1), rounds=1)
    optional = replace(one, is_optional=True)
    parts = [TimedPart("warm_up", (optional,), 8), TimedPart("strength", (one, optional))]

    session = time_session(parts, 10)

    assert (session.seconds, session.minutes, session.free_minutes) == (480 + 90 + 90, 11, -1)
    assert session.minutes_without_optional == 10


@given(dose=doses(), rounds=st.integers(1, 8), rest=st.integers(0, 600))
def test_one_more_round_is_never_shorter(dose: Dose, rounds: int, rest: int) -> None:
    def seconds(count: int) -> int:
        return timed(block(replace(line("1", sets=count), dose=dose), rounds=count, rest_s=rest)).seconds

    assert seconds(rounds + 1) >= seconds(rounds) + rest
