"""Coming back: fewer sets first, then less load. The shares are common practice."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachhub.coaching.easing import STAGES, eased_sets, latest_gap
from coachhub.coaching.facts import AthleteFacts, Gap
from coachhub.coaching.resolve import resolve
from tests.coaching.samples import ADULT, DAY, GYM, HIP_HINGE, codes, done, line, session

ON = date(2026, 3, 10)


def days_before(*days: int) -> list[date]:
    return [ON - timedelta(days=n) for n in days]


@pytest.mark.parametrize(
    ("trained", "gap"),
    [
        ((), None),
        ((13,), None),
        ((14,), Gap(14, 0)),
        ((30, 14), Gap(14, 0)),
        ((17, 3), Gap(14, 1)),
        ((21, 5, 2), None),  # the third time after a short break is trained in full
        ((40, 5, 2), Gap(35, 2)),
        ((45, 9, 6, 3), None),
        ((5, 2), None),
    ],
)
def test_break_is_found_until_it_has_been_eased(trained: tuple[int, ...], gap: Gap | None) -> None:
    assert latest_gap(days_before(*trained), ON) == gap


def test_break_is_as_long_as_the_club_says() -> None:
    assert latest_gap(days_before(20), ON, gap_days=21) is None
    assert latest_gap(days_before(21), ON, gap_days=21) == Gap(21, 0)


def back(**more: object) -> AthleteFacts:
    return replace(ADULT, history={1: (done(100),)}, **more)  # type: ignore[arg-type]


def eased(athlete: AthleteFacts) -> tuple[int, int, Decimal | None, str]:
    """Rounds of the block, sets of its line, load in kg, first step of the trace; 4 rounds at 100 kg are written."""
    written = session(replace(line("5 @ 100 kg"), sets=4))
    group = replace(written.groups[0], rounds_min=4, rounds_max=4)
    card = resolve(replace(written, groups=(group,)), athlete, GYM, DAY)
    (one,) = card.lines
    return card.groups[0].group.rounds_max, one.line.sets, one.load.value if one.load else None, codes(one)[0]


def test_first_card_after_a_break_has_fewer_sets_and_less_load_and_says_so() -> None:
    assert eased(back(gaps={"squat": Gap(16, 0)})) == (2, 2, Decimal(90), "after_gap")
    assert eased(back(gaps={"squat": Gap(16, 1)})) == (3, 3, Decimal(95), "after_gap")
    assert eased(back(gaps={"squat": Gap(30, 0)})) == (2, 2, Decimal(80), "after_gap")


def test_break_in_another_pattern_eases_nothing_here() -> None:
    assert eased(back(gaps={"pull": Gap(16, 0)})) == (4, 4, Decimal(100), "fixed")


@pytest.mark.parametrize(("stage", "sets", "load"), [(1, 2, 70), (2, 3, 80), (3, 4, 90)])
def test_stage_on_the_way_back_brings_sets_before_load(stage: int, sets: int, load: int) -> None:
    assert eased(back(return_stage=stage)) == (sets, sets, Decimal(load), "return_stage")


def test_stage_and_break_together_ease_by_the_lower_of_both() -> None:
    assert eased(back(return_stage=3, gaps={"squat": Gap(16, 0)})) == (2, 2, Decimal(90), "return_stage")


def test_stages_never_take_sets_or_load_back() -> None:
    shares = [STAGES[stage] for stage in sorted(STAGES)]
    assert [s.sets for s in shares] == sorted(s.sets for s in shares)
    assert [s.load for s in shares] == sorted(s.load for s in shares)


def test_block_keeps_its_rounds_while_one_line_keeps_its_sets() -> None:
    written = session(line("5 @ 60 kg"), line("8 @ 12 kg", HIP_HINGE))
    card = resolve(written, back(gaps={"squat": Gap(16, 0)}), GYM, DAY)
    assert card.groups[0].group.rounds_max == 3
    assert [one.line.sets for one in card.lines] == [2, 3]


def test_warm_up_is_not_eased() -> None:
    written = session(line("10"))
    warm_up = replace(written, groups=(replace(written.groups[0], segment="warm_up"),))
    (one,) = resolve(warm_up, back(return_stage=1), GYM, DAY).lines
    assert (one.line.sets, codes(one)) == (3, [])


@given(st.integers(1, 20), st.integers(1, 100))
def test_eased_sets_are_never_none_and_never_more(sets: int, percent: int) -> None:
    assert 1 <= eased_sets(sets, percent) <= sets
