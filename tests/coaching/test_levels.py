"""Levels in a family: the variation on the card, and when a step is proposed (common practice)."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from coachhub.coaching.levels import LevelSet, propose
from coachhub.coaching.resolve import resolve
from tests.coaching.samples import ADULT, BRIDGE, DAY, GYM, codes, line, session

FAMILY = (11, 12, 13)
TODAY = date(2026, 3, 20)


def sets(day: int, *amounts: int, clean: bool | None = True) -> list[LevelSet]:
    """Sets of "8-10" on a day of March, the last of them marked."""
    marks = [None] * (len(amounts) - 1) + [clean]
    return [
        LevelSet(100 * day + n, date(2026, 3, day), Decimal(amount), Decimal(8), Decimal(10), mark)
        for n, (amount, mark) in enumerate(zip(amounts, marks, strict=True))
    ]


@pytest.mark.parametrize(
    ("first", "second", "step"),
    [
        (sets(10, 10, 10), sets(17, 10, 11), "up"),
        (sets(10, 10, 10), sets(17, 10, 9), None),
        (sets(10, 10, 10), sets(17, 10, 10, clean=None), None),  # nobody has looked
        (sets(10, 10, 10), sets(17, 10, 10, clean=False), None),
        (sets(10, 8, 7), sets(17, 7, 7), "down"),
        (sets(10, 8, 8, clean=False), sets(17, 8, 7), "down"),
        (sets(10, 8, 8), sets(17, 8, 7), None),
    ],
)
def test_step_is_proposed_after_two_sessions_alike(
    first: list[LevelSet], second: list[LevelSet], step: str | None
) -> None:
    found = propose(FAMILY, 12, None, [*first, *second], TODAY)
    assert (found.step if found else None) == step


def test_step_names_the_neighbour_and_the_sets_that_speak_for_it() -> None:
    found = propose(FAMILY, 12, None, [*sets(10, 10), *sets(17, 10)], TODAY)
    assert found is not None
    assert (found.to_id, found.trace[0].code, found.trace[0].entry_ids) == (13, "level_up", (1000, 1700))


def test_step_beyond_the_end_of_the_family_is_not_proposed() -> None:
    assert propose(FAMILY, 13, None, [*sets(10, 10), *sets(17, 10)], TODAY) is None
    assert propose(FAMILY, 11, None, [*sets(10, 5), *sets(17, 5)], TODAY) is None


def test_step_within_a_week_of_the_last_one_is_not_proposed() -> None:
    both = [*sets(14, 10), *sets(17, 10)]
    assert propose(FAMILY, 12, date(2026, 3, 14), both, TODAY) is None
    assert propose(FAMILY, 12, date(2026, 3, 13), both, TODAY) is not None


def test_sets_before_the_level_was_set_do_not_count() -> None:
    assert propose(FAMILY, 12, date(2026, 3, 12), [*sets(10, 10), *sets(17, 10)], TODAY) is None


EASY = replace(BRIDGE, family="bridge", family_rank=1)
HARD = replace(BRIDGE, id=40, name="Single-leg bridge", family="bridge", family_rank=2)


def test_line_that_speaks_of_the_family_takes_the_athletes_variation() -> None:
    written = session(replace(line("8", EASY), by_level=True), exercises={EASY.id: EASY, HARD.id: HARD})
    (own,) = resolve(written, replace(ADULT, levels={"bridge": HARD.id}), GYM, DAY).lines
    (none,) = resolve(written, ADULT, GYM, DAY).lines
    assert (own.exercise, own.written_id, codes(own)[0]) == (HARD, EASY.id, "level")
    assert (none.exercise, codes(none)) == (EASY, [])


def test_line_that_names_one_exercise_is_the_same_at_every_level() -> None:
    written = session(line("8", EASY), exercises={EASY.id: EASY, HARD.id: HARD})
    (own,) = resolve(written, replace(ADULT, levels={"bridge": HARD.id}), GYM, DAY).lines
    assert own.exercise == EASY
