"""Card lines and sheets without a database."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime
from decimal import Decimal
from typing import Any

from coachhub.cards.sheet import Cell, RevisionInfo, Sheet, SheetGroup, SheetLine
from coachhub.coaching.facts import Mass

PLAIN: dict[str, Any] = {
    "pk": 1,
    "key": "p1",
    "label": "A1",
    "name": "Press-up",
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
    plain = PLAIN | {"written_name": values.get("name", PLAIN["name"])} | values
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


PLAIN_SHEET = Sheet(
    card_id=1,
    assignment_id=1,
    athlete_id=1,
    athlete_name="Ines Marlow",
    athlete_unit="kg",
    is_minor=False,
    is_rir_taught=True,
    session_name="Squat and pull",
    plan_name="Autumn strength",
    squad_name="Seniors",
    venue_name="Mill Lane gym",
    is_supervised=True,
    on_date=date(2026, 11, 24),
    week=3,
    revision=RevisionInfo(1, "first", datetime(2026, 11, 23, 12, tzinfo=UTC)),
    is_stale=False,
    is_started=False,
    flags=(),
    is_absent=False,
    next_seq=1,
    last_entry_id=0,
    last_received_at=None,
    groups=(),
)


def a_sheet(number: int) -> Sheet:
    """An ordinary evening of the Seniors: three parts before the weights, a block of three and one of four."""
    load = 60 + number % 20 * 2.5
    bar: dict[str, Any] = {
        "load_meaning": "bar_total",
        "load_rule": "fixed",
        "bar": "barbell 20",
        "spotting": "safety_arms",
    }
    squat: dict[str, Any] = {
        "name": "Front squat",
        "low": 5,
        "rir_half": 4,
        "cue": "Elbows high",
        "ramp_ups": ((Mass(Decimal(40), "kg"), 5),),
    }
    return replace(
        PLAIN_SHEET,
        card_id=number,
        athlete_name=f"Ines Marlow {number}",
        groups=(
            a_group("", "warm_up", 1, a_line(name="Light jog", dose_kind="time", low=120), a_line(name="Knee hug")),
            a_group("", "activation", 2, a_line(name="Band pull-apart", low=12, sets=2)),
            a_group("", "athleticism", 4, a_line(name="T-drill", dose_kind="distance", low=20, sets=4)),
            a_group(
                "A",
                "strength",
                4,
                a_line(label="A1", sets=4, load=load, per_side=(Decimal(20),), **bar | squat),
                a_line(label="A2", sets=4, name="Lateral bound and stick", low=3, per="side", cue="Hold each landing"),
                a_line(label="A3", sets=4, name="Chin-up", low=4, high=6),
            ),
            a_group(
                "B",
                "strength",
                3,
                a_line(label="B1", sets=3, load=load + 10, name="Romanian deadlift", **bar),
                a_line(label="B2", sets=3, name="Incline press", low=8, high=10, load=12, load_meaning="per_hand"),
                a_line(
                    label="B3",
                    sets=3,
                    name="Farmer carry",
                    dose_kind="distance",
                    low=30,
                    load=20,
                    load_meaning="per_hand",
                ),
                a_line(label="B4", sets=3, name="Side plank", dose_kind="hold", low=30, per="side"),
            ),
        ),
    )


def a_group(label: str, segment: str, rounds: int, *lines: SheetLine) -> SheetGroup:
    return SheetGroup(
        key=f"g{label or segment}",
        label=label,
        segment=segment,
        minutes=8,
        is_optional=False,
        rounds_min=rounds,
        rounds_max=rounds,
        rest_min_s=120,
        rest_max_s=150,
        rest_note="",
        rest_after_s=None,
        intent="",
        lines=lines,
        dropped=(),
    )
