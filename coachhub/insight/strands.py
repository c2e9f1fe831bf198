"""Sets of one exercise parted into what may be read on one scale, day by day. No database, no clock.

Kilograms and pounds share a scale; what a machine is set to, or the number on its plate, counts at its venue alone;
added load, assistance and a total never mix; a set without a load stands apart from those with one.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from itertools import groupby
from typing import Final, Literal

from coachhub.coaching.facts import Mass
from coachhub.science.units import Unit, convert
from coachhub.science.volume import volume_load

# What lies in each load: only of a total can load times repetitions be summed.
_TOTALS: Final = ("bar_total", "per_hand", "single", "machine")
_HERE_ONLY: Final = "machine"
_LESS_IS_MORE: Final = "assistance"
_AMOUNTS: Final = ("height_cm", "distance_m", "time_s", "reps")

Scale = Literal["kg", "lb", "pl", "reps", "s", "m", "cm", ""]
_SCALES: Final[dict[str, Scale]] = {"height_cm": "cm", "distance_m": "m", "time_s": "s", "reps": "reps"}


@dataclass(frozen=True, slots=True)
class DoneSet:
    """`times`: how often the repetitions were done in it: both sides, or several directions, under one entry."""

    on_date: date
    venue_id: int
    venue: str
    meaning: str
    load: Mass | None
    reps: int | None = None
    time_s: int | None = None
    distance_m: Decimal | None = None
    height_cm: Decimal | None = None
    times: int = 1


@dataclass(frozen=True, slots=True)
class Dot:
    """A set on its scale."""

    on_date: date
    value: Decimal
    done: DoneSet


@dataclass(frozen=True, slots=True)
class Day:
    """`work`: load times repetitions, or else repetitions, seconds or metres together; None where nothing adds up."""

    on_date: date
    dots: tuple[Dot, ...]
    best: Dot
    work: Decimal | None


@dataclass(frozen=True, slots=True)
class Strand:
    """`meaning` is empty without a load; `venue` names the one place where the numbers count."""

    meaning: str
    venue: str
    scale: Scale
    work_scale: Scale
    is_volume: bool
    days: tuple[Day, ...]


def strands_of(sets: Iterable[DoneSet], unit: Unit) -> tuple[Strand, ...]:
    """Return the strands, the one trained last first; masses in `unit`."""
    found: dict[tuple[object, ...], list[DoneSet]] = {}
    for done in sets:
        found.setdefault(_key(done), []).append(done)
    strands = [_strand(own, unit) for own in found.values()]
    return tuple(sorted(strands, key=lambda strand: strand.days[-1].on_date, reverse=True))


def _key(done: DoneSet) -> tuple[object, ...]:
    if done.load is None:
        return ("", "", amount_of(done))
    is_plate = done.load.unit == "pl"
    return (done.meaning, is_plate, done.venue_id if is_plate or done.meaning == _HERE_ONLY else 0)


def amount_of(done: DoneSet) -> str:
    """Return which of the amounts says most about a set without a load."""
    return next((name for name in _AMOUNTS if getattr(done, name) is not None), "reps")


def _strand(sets: Sequence[DoneSet], unit: Unit) -> Strand:
    first = sets[0]
    is_loaded, is_plate = first.load is not None, first.load is not None and first.load.unit == "pl"
    is_volume = is_loaded and not is_plate and first.meaning in _TOTALS and all(done.reps is not None for done in sets)
    amount = amount_of(first) if not is_loaded else _common_amount(sets)
    meaning = first.meaning if is_loaded else ""
    dots = [Dot(done.on_date, _value(done, amount, unit), done) for done in sets]
    by_day = groupby(sorted(dots, key=lambda dot: dot.on_date), key=lambda dot: dot.on_date)
    return Strand(
        meaning=meaning,
        venue=first.venue if is_plate or meaning == _HERE_ONLY else "",
        scale="pl" if is_plate else unit if is_loaded else _SCALES[amount],
        work_scale=unit if is_volume else "" if amount in ("", "height_cm") else _SCALES[amount],
        is_volume=is_volume,
        days=tuple(_day(on_date, tuple(own), meaning, "" if is_volume else amount) for on_date, own in by_day),
    )


def _common_amount(sets: Sequence[DoneSet]) -> str:
    """What every one of the loaded sets was counted in; empty where they differ."""
    return next((n for n in ("reps", "distance_m", "time_s") if all(getattr(s, n) is not None for s in sets)), "")


def _value(done: DoneSet, amount: str, unit: Unit) -> Decimal:
    if done.load is None:
        return Decimal(getattr(done, amount) or 0)
    return done.load.value if done.load.unit == "pl" else convert(done.load.value, done.load.unit, unit)


def _day(on_date: date, dots: tuple[Dot, ...], meaning: str, amount: str) -> Day:
    return Day(on_date, dots, best_of(dots, meaning), work_of(dots, meaning, amount))


def best_of(dots: Iterable[Dot], meaning: str) -> Dot:
    """Return the heaviest set, of several the one with the most repetitions; of assistance the least."""
    sign = -1 if meaning == _LESS_IS_MORE else 1
    return max(dots, key=lambda dot: (sign * dot.value, dot.done.reps or 0))


def work_of(dots: Iterable[Dot], meaning: str, amount: str) -> Decimal | None:
    """Return load times repetitions where `amount` is empty, else the amounts together.

    A pair of dumbbells counts with both masses, a side and a direction each as a set (see `science.volume`).
    """
    if amount == "height_cm":
        return None
    if amount:
        return sum((Decimal(getattr(dot.done, amount)) * dot.done.times for dot in dots), Decimal(0))
    if any(dot.done.reps is None for dot in dots) or meaning not in _TOTALS:
        return None
    hands = 2 if meaning == "per_hand" else 1
    return volume_load((dot.value * hands, (dot.done.reps or 0) * dot.done.times) for dot in dots)
