"""Sets of a line against the rounds of its block."""

from __future__ import annotations

import pytest

from coachhub.coaching.notation import parse
from coachhub.coaching.rounds import Placed, Rounds, SetsMisfitError, kept_sets, place_sets

THREE, RANGE = Rounds(3, 3), Rounds(3, 4)


@pytest.mark.parametrize(
    ("text", "rounds", "sets"),
    [
        ("8", THREE, None),
        ("3 x 8", THREE, None),
        ("2 x 8", THREE, 2),
        ("3-4 x 8", RANGE, None),
        ("3 x 8", RANGE, 3),
        ("1 x 8", RANGE, 1),
    ],
)
def test_sets_beside_other_lines_fit_the_rounds(text: str, rounds: Rounds, sets: int | None) -> None:
    assert place_sets(parse(text), rounds, is_only_line=False) == Placed(sets, rounds)


@pytest.mark.parametrize(
    ("text", "rounds"),
    [("4 x 8", THREE), ("2-3 x 8", THREE), ("4 x 8", RANGE), ("3-5 x 8", RANGE), ("2 x 8", Rounds(1, 1))],
)
def test_sets_beside_other_lines_that_do_not_fit_are_refused(text: str, rounds: Rounds) -> None:
    with pytest.raises(SetsMisfitError) as caught:
        place_sets(parse(text), rounds, is_only_line=False)
    assert caught.value.rounds == rounds


@pytest.mark.parametrize(("text", "after"), [("5 x 5", Rounds(5, 5)), ("2-3 x 5", Rounds(2, 3)), ("5", THREE)])
def test_sets_of_the_only_line_become_the_rounds(text: str, after: Rounds) -> None:
    assert place_sets(parse(text), THREE, is_only_line=True) == Placed(None, after)


@pytest.mark.parametrize(
    ("sets", "rounds", "kept"), [(None, THREE, None), (2, THREE, 2), (3, THREE, None), (4, THREE, None), (3, RANGE, 3)]
)
def test_sets_after_a_change_of_rounds_stay_only_where_they_are_fewer(
    sets: int | None, rounds: Rounds, kept: int | None
) -> None:
    assert kept_sets(sets, rounds) == kept


@pytest.mark.parametrize(("rounds", "text"), [(THREE, "3"), (RANGE, "3-4")])
def test_rounds_as_text(rounds: Rounds, text: str) -> None:
    assert str(rounds) == text
