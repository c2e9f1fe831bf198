"""A card line without a database."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from coachhub.cards.sheet import Cell, SheetLine
from coachhub.coaching.facts import Mass

PLAIN: dict[str, Any] = {
    "pk": 1,
    "key": "p1",
    "label": "A1",
    "name": "Press-up",
    "written_name": "Press-up",
    "exercise_id": 1,
    "is_dropped": False,
    "dose_kind": "reps",
    "low": 8,
    "high": None,
    "per": "",
    "directions": (),
    "measure": "reps",
    "laterality": "bilateral",
    "load_meaning": "none",
    "load_rule": "none",
    "load_words": "",
    "rir_half": None,
    "tempo": "",
    "cue": "",
    "cues": (),
    "spotting": "none",
    "rest_after_s": 0,
    "ramp_ups": (),
    "bar": "",
    "per_side": (),
    "last": None,
    "trace": (),
}


def a_line(*, sets: int = 1, load: float | None = None, load_high: float | None = None, **values: Any) -> SheetLine:
    """Eight press-ups, unless said otherwise; masses in kilograms."""
    plain = PLAIN | values
    sides = ("left", "right") if plain["per"] == "side" else ("both",)
    return SheetLine(
        **plain
        | {
            "low": Decimal(plain["low"]),
            "high": None if plain["high"] is None else Decimal(plain["high"]),
            "load": kilograms(load),
            "load_high": kilograms(load_high),
            "steps": tuple(Mass(Decimal(step), "kg") for step in values.get("steps", ())),
            "sets": sets,
            "cells": tuple(Cell(n, sides, ()) for n in range(1, sets + 1)),
        }
    )


def kilograms(value: float | None) -> Mass | None:
    return None if value is None else Mass(Decimal(str(value)), "kg")
