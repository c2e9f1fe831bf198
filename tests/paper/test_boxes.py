"""Boxes beside the exercise, or in strips below it."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachhub.cards.sheet import SheetLine
from coachhub.paper.boxes import is_wide, plan_figures, strip_length, strips_of
from tests.paper.lines import a_group, a_line


@pytest.mark.parametrize(
    ("per", "rounds", "wide", "in_row"),
    [
        ("", 6, False, 6),
        ("", 7, True, 7),
        ("", 10, True, 5),
        ("", 20, True, 7),
        ("side", 4, False, 4),
        ("side", 8, True, 4),
    ],
)
def test_many_rounds_go_into_even_strips(per: str, rounds: int, wide: bool, in_row: int) -> None:
    lines = [a_line(per=per, sets=rounds)]
    assert (is_wide(lines, rounds), strip_length(lines, rounds)) == (wide, in_row)


@given(rounds=st.integers(1, 20), per=st.sampled_from(["", "side"]))
def test_every_round_has_its_boxes_once(rounds: int, per: str) -> None:
    line = a_line(per=per, sets=rounds)
    boxes = [box for strip in strips_of(line, rounds, strip_length([line], rounds)) for box in strip]
    sides = 2 if per else 1
    assert [box.round for box in boxes if box.state != "none"] == [
        n for n in range(1, rounds + 1) for _ in range(sides)
    ]


def test_line_with_fewer_sets_leaves_the_other_rounds_out() -> None:
    (strip,) = strips_of(a_line(sets=2), 4, 4)
    assert [(box.state, box.text) for box in strip] == [("plan", "8"), ("plan", "8"), ("none", ""), ("none", "")]


@pytest.mark.parametrize(
    ("values", "figures"),
    [
        ({"low": 6, "high": 8}, ("6–8",)),
        ({"dose_kind": "hold", "low": 30}, ("30 s",)),
        ({"dose_kind": "distance", "low": 20, "load": 24}, ("24", "× 20 m")),
        ({"load": 60, "load_high": 65, "low": 5}, ("60–65", "× 5")),
        ({"load": 62.5, "low": 5}, ("62.5", "× 5")),
        ({"load_meaning": "bar_total", "load_rule": "find", "low": 5, "steps": [20, 25]}, ("____ kg", "× 5")),
    ],
)
def test_planned_figures_are_as_short_as_can_be(values: dict[str, Any], figures: tuple[str, ...]) -> None:
    line: SheetLine = a_line(**values)
    assert plan_figures(line) == figures


@pytest.mark.parametrize("rule", ["rir", "none"])
def test_weight_that_nobody_planned_has_room_on_paper(rule: str) -> None:
    (strip,) = strips_of(a_line(sets=1, load_meaning="single", load_rule=rule), 1, 1)
    assert [(box.state, box.text) for box in strip] == [("blank", "____\n×\N{NO-BREAK SPACE}8")]


def test_round_that_no_line_reaches_is_not_done() -> None:
    group = a_group("A", "strength", 3, a_line(sets=1))
    assert ([r.is_open for r in group.rounds], group.rounds_done) == ([True, False, False], 0)
