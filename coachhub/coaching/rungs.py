"""The loads that a venue can make for one exercise, as a ladder: what stands there, in its own unit."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache

from coachhub.coaching.facts import ExerciseFacts, Mass
from coachhub.coaching.loading import Bar, BarLoad, Stock, Weight, load_bar, loadable_totals

_BAR_KINDS = ("barbell", "hex_bar")
_HELD_KINDS = ("dumbbell", "kettlebell", "medicine_ball", "slam_ball")


@dataclass(frozen=True, slots=True)
class Rung:
    """One loadable mass, with the plates of one side (inside out) and the bar that makes it."""

    kg: Decimal
    mass: Mass
    per_side: tuple[Decimal, ...] = ()
    bar: str = ""


Ladder = tuple[Rung, ...]


def ladder_for(exercise: ExerciseFacts, stock: Stock) -> Ladder | None:
    """Return the loads the venue can make, lightest first; None where any number may be written.

    A machine or cable goes by its own scale here, if one is known; a sled or band has none. What is held and needs
    nothing that stands here is people's own, such as a packed bag.
    """
    if exercise.load_meaning == "none" or (exercise.load_meaning in ("single", "per_hand") and not exercise.needs):
        return None
    kinds = frozenset(kind for group in exercise.needs for kind in group)
    if exercise.load_meaning in ("machine", "assistance"):
        return _settings(stock, kinds, exercise.id) if stock.scales else None
    return _ladder(stock, exercise.load_meaning, kinds)


def on_bar(ladder: Ladder, exercise: ExerciseFacts, stock: Stock, bar: str) -> Ladder:
    """Return the loads that this bar makes, the lightest first; without a bar the ladder as it is.

    The ladder itself takes for each mass whatever bar makes it with the fewest plates.
    """
    return _of_bar(stock, frozenset(kind for group in exercise.needs for kind in group), bar) if bar else ladder


def is_numbered(ladder: Ladder | None) -> bool:
    """Whether the rungs are numbers of plates, which say nothing of kilograms."""
    return bool(ladder and ladder[0].mass.unit == "pl")


@lru_cache(maxsize=1024)
def _settings(stock: Stock, kinds: frozenset[str], exercise_id: int) -> Ladder | None:
    """Scales that stand for this exercise, else those of its kinds that stand for any; None if their units differ."""
    own = [scale for scale in stock.scales if scale.exercise_id == exercise_id]
    scales = own or [scale for scale in stock.scales if scale.exercise_id is None and scale.kind in kinds]
    if len({scale.unit == "pl" for scale in scales}) != 1:
        return None
    masses = [Mass(setting, scale.unit) for scale in scales for setting in scale.settings]
    return _distinct([Rung(mass.kg, mass) for mass in masses]) or None


def at_or_below(kg: Decimal, ladder: Ladder) -> Rung | None:
    """Return the heaviest rung at or below `kg`; None below the first."""
    index = bisect_right(ladder, kg, key=_kg)
    return ladder[index - 1] if index else None


def above(kg: Decimal, ladder: Ladder) -> Rung | None:
    """Return the first rung above `kg`; None above the last."""
    index = bisect_right(ladder, kg, key=_kg)
    return ladder[index] if index < len(ladder) else None


def around(kg: Decimal, ladder: Ladder, each_way: int) -> Ladder:
    """Return the rungs round `kg`, up to `each_way` on either side of it."""
    index = bisect_left(ladder, kg, key=_kg)
    return ladder[max(0, index - each_way) : index + each_way + 1]


@lru_cache(maxsize=1024)
def _ladder(stock: Stock, meaning: str, kinds: frozenset[str]) -> Ladder:
    if meaning == "bar_total":
        rungs = _all_bar_rungs(stock, kinds)
    else:
        needed = 2 if meaning == "per_hand" else 1
        rungs = [_held(weight) for weight in _weights(stock, kinds) if weight.count >= needed]
        if meaning == "added":
            rungs += [
                _plate(mass) for mass in sorted({Mass(p.mass, p.unit) for p in stock.plates if p.pairs}, key=_mass_kg)
            ]
    return _distinct(rungs)


@lru_cache(maxsize=1024)
def _of_bar(stock: Stock, kinds: frozenset[str], bar: str) -> Ladder:
    return _distinct([rung for rung in _all_bar_rungs(stock, kinds) if rung.bar == bar])


def _all_bar_rungs(stock: Stock, kinds: frozenset[str]) -> list[Rung]:
    is_one_ended = "landmine" in kinds
    return [rung for bar in _bars(stock, kinds) for rung in _bar_rungs(bar, stock, is_one_ended)]


def _bars(stock: Stock, kinds: frozenset[str]) -> list[Bar]:
    wanted = [kind for kind in _BAR_KINDS if kind in kinds] or ["barbell"]
    return [bar for bar in stock.bars if bar.label in wanted]


def _bar_rungs(bar: Bar, stock: Stock, is_one_ended: bool) -> list[Rung]:
    """Every load of the bar; in a landmine plates go on one end only, and one of each pair will do."""
    rungs = []
    for total in loadable_totals(bar, stock.plates):
        loaded = load_bar(total, bar, stock.plates)
        if isinstance(loaded, BarLoad):
            name = f"{bar.label} {bar.mass.normalize():f} {bar.unit}"
            mass = Mass(bar.mass + sum(loaded.per_side) if is_one_ended else total, bar.unit)
            rungs.append(Rung(mass.kg, mass, loaded.per_side, name))
    return rungs


def _weights(stock: Stock, kinds: frozenset[str]) -> list[Weight]:
    held = [kind for kind in _HELD_KINDS if kind in kinds] or ["dumbbell"]
    there = (*stock.dumbbells, *stock.kettlebells, *stock.balls)
    return [weight for weight in there if weight.kind in held]


def _held(weight: Weight) -> Rung:
    mass = Mass(weight.mass, weight.unit)
    return Rung(mass.kg, mass)


def _plate(mass: Mass) -> Rung:
    return Rung(mass.kg, mass)


def _distinct(rungs: list[Rung]) -> Ladder:
    """One rung a mass: of several ways to make it, the one with the fewest plates (so the heavier bar)."""
    best: dict[Decimal, Rung] = {}
    for rung in sorted(rungs, key=lambda r: (r.kg, len(r.per_side))):
        best.setdefault(rung.kg, rung)
    return tuple(best[kg] for kg in sorted(best))


def _kg(rung: Rung) -> Decimal:
    return rung.kg


def _mass_kg(mass: Mass) -> Decimal:
    return mass.kg
