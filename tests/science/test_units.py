from decimal import Decimal
from typing import cast

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachhub.science.units import Unit, convert, from_kg, to_kg

UNITS: tuple[Unit, ...] = ("kg", "lb")
values = st.decimals(min_value=0, max_value=10_000, places=3)
units = st.sampled_from(UNITS)


@given(value=values, unit=units)
def test_entry_to_kilograms_and_back_is_unchanged(value: Decimal, unit: Unit) -> None:
    assert from_kg(to_kg(value, unit), unit) == value


@given(value=values, unit=units)
def test_entry_from_kilograms_and_back_is_unchanged(value: Decimal, unit: Unit) -> None:
    assert to_kg(from_kg(value, unit), unit) == value


@given(value=values, unit=units, to=units)
def test_convert_and_back_is_unchanged(value: Decimal, unit: Unit, to: Unit) -> None:
    assert convert(convert(value, unit, to), to, unit) == value


@given(first=values, second=values)
def test_pounds_keep_the_order_of_kilograms(first: Decimal, second: Decimal) -> None:
    assert (from_kg(first, "lb") < from_kg(second, "lb")) == (first < second)


@pytest.mark.parametrize("value", ["NaN", "Infinity", "-Infinity"])
def test_value_that_is_not_finite_is_refused(value: str) -> None:
    with pytest.raises(ValueError, match="value must be finite"):
        to_kg(Decimal(value), "lb")


def test_unknown_unit_is_refused() -> None:
    with pytest.raises(ValueError, match="unit must be kg or lb"):
        from_kg(Decimal(1), cast("Unit", "st"))
