"""Source: 1 lb = 0.45359237 kg exactly (1959 agreement); pint as a second opinion."""

from decimal import ROUND_HALF_UP, Decimal

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachhub.science.units import from_kg, to_kg
from tests.published.figures import rows

MASSES = [row for row in rows("unit_checks.csv") if row["from"] in {"kg", "lb"}]
PINT: pint.UnitRegistry[Decimal] = pint.UnitRegistry(non_int_type=Decimal)


@pytest.mark.parametrize(("value", "kg"), [(r["value"], r["result"]) for r in MASSES if r["from"] == "lb"])
def test_pounds_in_kilograms_agree_with_print(value: str, kg: str) -> None:
    assert to_kg(Decimal(value), "lb").quantize(Decimal("1E-8"), ROUND_HALF_UP) == Decimal(kg)


@pytest.mark.parametrize(("value", "lb"), [(r["value"], r["result"]) for r in MASSES if r["from"] == "kg"])
def test_kilograms_in_pounds_agree_with_print(value: str, lb: str) -> None:
    assert f"{from_kg(Decimal(value), 'lb'):.6f}" == lb


@given(pounds=st.decimals(min_value=0, max_value=1100, places=2))
def test_pounds_agree_with_pint(pounds: Decimal) -> None:
    other = PINT.Quantity(pounds, "pound").to("kilogram").magnitude
    assert to_kg(pounds, "lb") == round(Decimal(other), 12)
