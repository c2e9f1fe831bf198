"""Boxes of a card filled in by pen. The spelling is the house's own; load × reps is common practice."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachhub.coaching.facts import Mass
from coachhub.coaching.written import Box, Written, WrittenError, plan_of, read_box, write_box

KG_60 = Mass(Decimal(60), "kg")
LIFT = Box(kind="reps", low=Decimal(5), load=KG_60, unit="kg", loading="must", has_sides=False)
FIND = Box(kind="reps", low=Decimal(8), load=None, unit="kg", loading="must", has_sides=False)
FREE = Box(kind="reps", low=Decimal(8), load=None, unit="kg", loading="none", has_sides=False)
SIDES = Box(kind="reps", low=Decimal(8), load=Mass(Decimal(20), "kg"), unit="kg", loading="must", has_sides=True)
HOLD = Box(kind="hold", low=Decimal(30), load=None, unit="kg", loading="none", has_sides=False)
CARRY = Box(kind="distance", low=Decimal(20), load=Mass(Decimal(24), "kg"), unit="kg", loading="must", has_sides=False)


def done(amount: str, load: str = "", unit: str = "kg") -> Written:
    return Written(Mass(Decimal(load), unit) if load else None, Decimal(amount))  # type: ignore[arg-type]


SKIPPED = Written(None, None)


@pytest.mark.parametrize(
    ("text", "box", "sides"),
    [
        ("62.5x8", LIFT, (done("8", "62.5"),)),
        ("62,5 X 8", LIFT, (done("8", "62.5"),)),
        ("62.5 kg × 8", LIFT, (done("8", "62.5"),)),
        ("135lb x 8", LIFT, (done("8", "135", "lb"),)),
        ("x8", LIFT, (done("8", "60"),)),
        ("65x", LIFT, (done("5", "65"),)),
        ("=", LIFT, (done("5", "60"),)),
        ("x8", FIND, (done("8"),)),
        ("20x8", FIND, (done("8", "20"),)),
        ("8", FREE, (done("8"),)),
        ("x8", FREE, (done("8"),)),
        ("0", FREE, (done("0"),)),
        ("30 s", HOLD, (done("30"),)),
        ("24x12.5m", CARRY, (done("12.5", "24"),)),
        ("-", LIFT, (SKIPPED,)),
        (" – ", LIFT, (SKIPPED,)),
        ("20x8", SIDES, (done("8", "20"), done("8", "20"))),
        ("20x8|7", SIDES, (done("8", "20"), done("7", "20"))),
        ("20x8|18x7", SIDES, (done("8", "20"), done("7", "18"))),
        ("x8|-", SIDES, (done("8", "20"), SKIPPED)),
        ("x8|", SIDES, (done("8", "20"), None)),
        ("-", SIDES, (SKIPPED, SKIPPED)),
    ],
)
def test_box_is_read(text: str, box: Box, sides: tuple[Written | None, ...]) -> None:
    assert read_box(text, box) == sides


@pytest.mark.parametrize(
    ("text", "box", "code"),
    [
        ("8", LIFT, "which"),
        ("-|7", SIDES, "which"),
        ("x", LIFT, "unreadable"),
        ("ok", LIFT, "unreadable"),
        ("62.5x8x2", LIFT, "unreadable"),
        ("-5x8", LIFT, "unreadable"),
        ("٦x٨", LIFT, "unreadable"),
        ("60x5|5", LIFT, "sides"),
        ("8|8|8", SIDES, "sides"),
        ("20x8", FREE, "no_load"),
        ("=", FIND, "load_missing"),
        ("620x8", LIFT, "too_much"),
        ("60x101", LIFT, "too_much"),
        ("60x5.5", LIFT, "whole"),
        ("62.125x5", LIFT, "precise"),
        ("60x5s", LIFT, "measure"),
        ("30m", HOLD, "measure"),
    ],
)
def test_what_is_no_set_is_refused_with_its_reason(text: str, box: Box, code: str) -> None:
    with pytest.raises(WrittenError) as refused:
        read_box(text, box)
    assert refused.value.code == code


@pytest.mark.parametrize(
    ("sides", "box", "text"),
    [
        ((done("8", "62.50"),), LIFT, "62.5x8"),
        ((done("8", "135", "lb"),), LIFT, "135 lb x8"),
        ((done("8"),), FIND, "x8"),
        ((done("8"),), FREE, "8"),
        ((done("8", "20"), done("7", "20")), SIDES, "20x8|7"),
        ((done("8", "20"), done("7", "18")), SIDES, "20x8|18x7"),
        ((done("8", "20"), None), SIDES, "20x8|"),
        ((SKIPPED, SKIPPED), SIDES, "-"),
        ((None,), LIFT, ""),
    ],
)
def test_box_is_written(sides: tuple[Written | None, ...], box: Box, text: str) -> None:
    assert write_box(sides, box) == text


def test_plan_of_a_load_to_be_found_is_none() -> None:
    assert (plan_of(FIND), plan_of(SIDES)) == (None, (done("8", "20"),) * 2)


loads = st.decimals(min_value=0, max_value=500, places=2)
lifted = st.builds(lambda load, reps: Written(Mass(load, "kg"), Decimal(reps)), loads, st.integers(0, 100))
side = st.one_of(lifted, st.just(SKIPPED), st.none())


@given(st.tuples(side, side).filter(any))
def test_what_is_written_reads_the_same(sides: tuple[Written | None, Written | None]) -> None:
    assert read_box(write_box(sides, SIDES), SIDES) == sides
