"""Boxes beside the exercise, or in strips below it."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachhub.cards.models import SetEntry
from coachhub.cards.sheet import SheetEntry, SheetLine
from coachhub.paper.boxes import done_figures, is_wide, plan_figures, strip_length, strips_of
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
    boxes = [box for strip in strips_of(line, rounds, strip_length([line], rounds), "kg") for box in strip]
    sides = 2 if per else 1
    assert [box.round for box in boxes if box.state != "none"] == [
        n for n in range(1, rounds + 1) for _ in range(sides)
    ]


def test_line_with_fewer_sets_leaves_the_other_rounds_out() -> None:
    (strip,) = strips_of(a_line(sets=2), 4, 4, "kg")
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
    assert plan_figures(line, "kg") == figures


@pytest.mark.parametrize("rule", ["rir", "none"])
@pytest.mark.parametrize("unit", ["kg", "lb"])
def test_weight_that_nobody_planned_has_room_on_paper(rule: str, unit: str) -> None:
    (strip,) = strips_of(a_line(sets=1, load_meaning="single", load_rule=rule), 1, 1, unit)
    assert [(box.state, box.text.replace("\N{NO-BREAK SPACE}", " ")) for box in strip] == [
        ("blank", f"____ {unit}\n× 8")
    ]


@pytest.mark.parametrize(
    ("per", "values", "text"),
    [
        ("", {"load": 62.5}, "62.5_kg ×_8"),
        ("", {"load": 60, "load_high": 65}, "60–65_kg ×_8"),
        ("", {"load_meaning": "bar_total", "load_rule": "find", "steps": [20, 25]}, "_____kg\n×_8"),
        ("side", {"load": 62.5}, "L 62.5 kg ×_8"),
    ],
)
def test_load_in_a_unit_that_the_reader_does_not_use_says_so(per: str, values: dict[str, Any], text: str) -> None:
    (strip,) = strips_of(a_line(sets=1, per=per, **values), 1, 1, "lb")
    assert strip[0].text.replace("\N{NO-BREAK SPACE}", "_") == text


@pytest.mark.parametrize(
    ("reader", "planned", "seen", "text"),
    [
        ("kg", 60.0, "kg", "55 × 5"),
        ("lb", 60.0, "kg", "55 kg × 5"),
        ("lb", 60.0, "lb", "55 lb × 5"),
        ("kg", 60.0, "lb", "55 lb × 5"),
        ("kg", None, "kg", "55 kg × 5"),
    ],
)
def test_done_set_names_a_unit_that_could_be_mistaken(reader: str, planned: float | None, seen: str, text: str) -> None:
    fact = SetEntry(kind="done", side="both", reps=5, load_value=Decimal(55), load_unit=seen)
    assert " ".join(done_figures(a_line(load=planned), SheetEntry(fact, (), ""), reader)) == text


def test_round_that_no_line_reaches_is_not_done() -> None:
    group = a_group("A", "strength", 3, a_line(sets=1))
    assert ([r.is_open for r in group.rounds], group.rounds_done) == ([True, False, False], 0)
