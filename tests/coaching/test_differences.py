from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachhub.coaching.differences import OF_A_LINE, Aspect, Difference, Said, differences

PLAIN: dict[Aspect, str] = dict.fromkeys(OF_A_LINE, "")


def said(key: str, *, is_left_out: bool = False, **values: str) -> Said:
    return Said(key, {**PLAIN, **values}, is_left_out)  # type: ignore[dict-item]  # aspects named as keywords


def found(before: list[Said], after: list[Said]) -> tuple[Difference, ...]:
    return differences(before, after, OF_A_LINE)


def test_same_lines_in_another_order_do_not_differ() -> None:
    assert found([said("p1"), said("p2")], [said("p2"), said("p1")]) == ()


def test_each_aspect_is_named_in_the_order_that_matters() -> None:
    before, after = said("p1", cue="slow", load="60", sets="4"), said("p1", cue="fast", load="62.5", sets="3")

    assert found([before], [after]) == (Difference("p1", "changed", ("sets", "load", "cue")),)


@pytest.mark.parametrize(
    ("before", "after", "kind"),
    [
        ([], [said("p1")], "new"),
        ([said("p1")], [], "gone"),
        ([said("p1")], [said("p1", is_left_out=True)], "left_out"),
        ([], [said("p1", is_left_out=True)], "left_out"),
        ([said("p1", is_left_out=True)], [said("p1")], "back"),
    ],
)
def test_line_that_comes_or_goes_is_one_difference(before: list[Said], after: list[Said], kind: str) -> None:
    assert [(one.key, one.kind, one.aspects) for one in found(before, after)] == [("p1", kind, ())]


@pytest.mark.parametrize("after", [[], [said("p1", is_left_out=True, load="60")]])
def test_line_left_out_before_is_not_missed(after: list[Said]) -> None:
    assert found([said("p1", is_left_out=True)], after) == ()


lines = st.lists(
    st.builds(
        lambda key, load, out: said(key, load=load, is_left_out=out), st.sampled_from("abc"), st.text(), st.booleans()
    ),
    unique_by=lambda one: one.key,
)


@given(lines)
def test_nothing_differs_from_itself(one: list[Said]) -> None:
    assert found(one, one) == ()


@given(lines, lines)
def test_there_is_a_difference_in_both_directions_or_in_none(one: list[Said], other: list[Said]) -> None:
    planned = [[line for line in side if not line.is_left_out] for side in (one, other)]

    assert bool(found(*planned)) == bool(found(*reversed(planned)))
