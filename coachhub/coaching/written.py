"""What stands in one box of a card that was filled in by pen: `62.5x8`, `x8`, `65x`, `12`, `20x8|7`, `-`, `=`.

    box  = "=" | side | [side] "|" [side]                                  = as planned; one side for both, left | right
    side = "-" | [load [unit]] "x" amount | load [unit] "x" | amount       - skipped

A load that is left out is the planned one, an amount that is left out is the least that was planned.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Final, Literal, cast

from coachhub.coaching.facts import Mass
from coachhub.coaching.loading import LoadUnit
from coachhub.coaching.notation.dose import MOST_LOAD, MOST_OF, DoseKind

PLANNED: Final = "="
SKIPPED: Final = "-"
_DASHES: Final = frozenset("-–—−")
_FIGURE: Final = r"\d{1,6}(?:[.,]\d{1,4})?"
_LIFTED: Final = re.compile(
    rf"(?:(?P<load>{_FIGURE})\s*(?P<unit>kg|lb|pl)?)?\s*[x×*]\s*(?:(?P<amount>{_FIGURE})\s*(?P<measure>s|m)?)?",
    re.ASCII,
)
_PLAIN: Final = re.compile(rf"(?P<amount>{_FIGURE})\s*(?P<measure>s|m)?", re.ASCII)
_MEASURE: Final = {"time": "s", "hold": "s", "distance": "m"}

Loading = Literal["none", "may", "must"]
Code = Literal["unreadable", "sides", "which", "no_load", "load_missing", "too_much", "whole", "precise", "measure"]


class WrittenError(ValueError):
    """Why a box cannot be read, as a code with the text it is about."""

    def __init__(self, code: Code, text: str = "") -> None:
        self.code, self.text = code, text
        super().__init__(f"{code}: {text}")


@dataclass(frozen=True, slots=True)
class Box:
    """What a box is for. `unit`: of a load that names none; `loading`: whether a set has no load, may or must have one.

    `load` and `low` are the plan; `load` None where it names none.
    """

    kind: DoseKind
    low: Decimal
    load: Mass | None
    unit: LoadUnit
    loading: Loading
    has_sides: bool


@dataclass(frozen=True, slots=True)
class Written:
    """One side of one set; `amount` None where it was skipped."""

    load: Mass | None
    amount: Decimal | None


def plan_of(box: Box) -> tuple[Written, ...] | None:
    """The box as planned, its amount at the low end; None where the load is still to be found."""
    if box.load is None and box.loading == "must":
        return None
    return (Written(box.load, box.low),) * (2 if box.has_sides else 1)


def read_box(text: str, box: Box) -> tuple[Written | None, ...]:
    """Return what is written, a value a side, None where nothing is; WrittenError for what is not in the grammar."""
    text = text.strip().lower()
    if text == PLANNED:
        plan = plan_of(box)
        if plan is None:
            raise WrittenError("load_missing")
        return plan
    parts = [part.strip() for part in text.split("|")]
    if len(parts) > (2 if box.has_sides else 1):
        raise WrittenError("sides", text)
    if len(parts) == 1:
        return (_read_side(text, box, None),) * (2 if box.has_sides else 1)
    left = _read_side(parts[0], box, None) if parts[0] else None
    right = _read_side(parts[1], box, left.load if left else None) if parts[1] else None
    return (left, right)


def _read_side(text: str, box: Box, load_before: Mass | None) -> Written:
    if text in _DASHES:
        return Written(None, None)
    if found := _LIFTED.fullmatch(text):
        if found["load"] is None and found["amount"] is None:
            raise WrittenError("unreadable", text)
        return Written(_load(found["load"], found["unit"], box), _amount(found["amount"], found["measure"], box))
    found = _PLAIN.fullmatch(text)
    if found is None:
        raise WrittenError("unreadable", text)
    if box.loading == "must" and load_before is None:
        raise WrittenError("which", text)
    return Written(load_before, _amount(found["amount"], found["measure"], box))


def _load(figure: str | None, unit: str | None, box: Box) -> Mass | None:
    if figure is None:
        return box.load
    if box.loading == "none":
        raise WrittenError("no_load", figure)
    mass = Mass(_decimal(figure), cast(LoadUnit, unit or box.unit))
    if mass.value > MOST_LOAD["lb" if mass.unit == "lb" else "kg"]:
        raise WrittenError("too_much", figure)
    return mass


def _amount(figure: str | None, measure: str | None, box: Box) -> Decimal:
    if measure and measure != _MEASURE.get(box.kind):
        raise WrittenError("measure", measure)
    if figure is None:
        return box.low
    value = _decimal(figure)
    if box.kind != "distance" and value != value.to_integral_value():
        raise WrittenError("whole", figure)
    if value > MOST_OF[box.kind]:
        raise WrittenError("too_much", figure)
    return value


def _decimal(figure: str) -> Decimal:
    value = Decimal(figure.replace(",", "."))
    if value != round(value, 2):
        raise WrittenError("precise", figure)
    return value


def write_box(sides: Sequence[Written | None], box: Box) -> str:
    """Return the shortest text that reads as these sides: "62.5x8", "20x8|7", "8|", "-"."""
    first, *rest = sides
    if all(side == first for side in rest):
        return _write_side(first, box, None)
    before = first.load if first else None
    return "|".join((_write_side(first, box, None), *(_write_side(side, box, before) for side in rest)))


def _write_side(side: Written | None, box: Box, load_before: Mass | None) -> str:
    if side is None:
        return ""
    if side.amount is None:
        return SKIPPED
    amount = _figure(side.amount)
    if side.load is None:
        return f"x{amount}" if box.loading == "must" else amount
    if side.load == load_before:
        return amount
    unit = "" if side.load.unit == box.unit else f" {side.load.unit} "
    return f"{_figure(side.load.value)}{unit}x{amount}"


def _figure(value: Decimal) -> str:
    text = f"{value:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
