"""Kilograms and pounds, exactly."""

from decimal import ROUND_HALF_EVEN, Context, Decimal
from typing import Literal

Unit = Literal["kg", "lb"]

KG_PER_LB = Decimal("0.45359237")

# Division by the pound never ends, so pounds keep 28 digits and kilograms 20: the spare
# eight absorb the remainder, and kg -> lb -> kg gives back what was typed.
_POUNDS = Context(prec=28, rounding=ROUND_HALF_EVEN)
_KILOGRAMS = Context(prec=20, rounding=ROUND_HALF_EVEN)


def to_kg(value: Decimal, unit: Unit) -> Decimal:
    """Return `value` in kilograms, exact up to 12 significant digits.

    ValueError for an unknown unit or a value that is not finite.
    Source: international yard and pound agreement of 1959, 1 lb = 0.45359237 kg exactly.
    """
    _check(value, unit)
    return value if unit == "kg" else _KILOGRAMS.multiply(value, KG_PER_LB)


def from_kg(value: Decimal, unit: Unit) -> Decimal:
    """Return `value` kilograms in `unit`; exact where the result ends within 28 digits.

    ValueError for an unknown unit or a value that is not finite.
    Source: as `to_kg`.
    """
    _check(value, unit)
    return value if unit == "kg" else _POUNDS.divide(value, KG_PER_LB)


def convert(value: Decimal, unit: Unit, to: Unit) -> Decimal:
    """Return `value` of one unit in another, unchanged where they are the same.

    ValueError as `to_kg`.
    Source: as `to_kg`.
    """
    return value if unit == to else from_kg(to_kg(value, unit), to)


def _check(value: Decimal, unit: Unit) -> None:
    if unit not in ("kg", "lb"):
        raise ValueError(f"unit must be kg or lb, not {unit}")
    if not value.is_finite():
        raise ValueError(f"value must be finite, not {value}")
