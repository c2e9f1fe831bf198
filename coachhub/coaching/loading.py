"""What can be loaded from what stands in the room.

Masses are exact: decimals with at most three places go in and come out, and
the sums in between are whole thousandths of the unit. Plates go on in pairs,
in the unit of the bar: plates of the other unit are left on their tree.
"""

from bisect import bisect_right
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from typing import Literal

from coachhub.science.units import Unit, to_kg

# What a load is read in: a mass, or the number of the plate that the pin is in.
LoadUnit = Unit | Literal["pl"]

# No bar carries more than this on one side, in either unit; it bounds the search.
_SIDE_LIMIT = 550_000
_SIDE_PLATES = 24

_PerSide = tuple[int, ...]


def _checked_thousandths(mass: Decimal, what: str) -> int:
    thousandths = mass.scaleb(3) if mass.is_finite() else mass
    if not mass.is_finite() or thousandths != thousandths.to_integral_value():
        raise ValueError(f"{what} must have at most three decimal places, not {mass}")
    return int(thousandths)


def _require_mass(mass: Decimal, what: str) -> None:
    if _checked_thousandths(mass, what) <= 0:
        raise ValueError(f"{what} must be above 0, not {mass}")


def _require_count(count: int, what: str) -> None:
    if count < 0:
        raise ValueError(f"{what} must be 0 or more, not {count}")


@dataclass(frozen=True, slots=True)
class Bar:
    """A bar; `collar` is the mass of each of its two collars."""

    label: str
    mass: Decimal
    unit: Unit
    collar: Decimal = Decimal(0)

    def __post_init__(self) -> None:
        _require_mass(self.mass, "the bar's mass")
        if _checked_thousandths(self.collar, "the collar's mass") < 0:
            raise ValueError(f"the collar's mass must be 0 or more, not {self.collar}")

    @property
    def empty(self) -> Decimal:
        """The mass of the bar with its collars and no plate."""
        return self.mass + 2 * self.collar


@dataclass(frozen=True, slots=True)
class Plate:
    """Plates of one mass, counted in pairs; an odd one cannot be used."""

    mass: Decimal
    unit: Unit
    pairs: int

    def __post_init__(self) -> None:
        _require_mass(self.mass, "the plate's mass")
        _require_count(self.pairs, "pairs")


@dataclass(frozen=True, slots=True)
class Weight:
    """Weights of one mass that are lifted as they are: dumbbells, kettlebells."""

    kind: str
    mass: Decimal
    unit: Unit
    count: int

    def __post_init__(self) -> None:
        _require_mass(self.mass, "the weight's mass")
        _require_count(self.count, "count")


@dataclass(frozen=True, slots=True)
class Scale:
    """The settings of one machine or cable, ascending; with an exercise it stands for that one alone."""

    kind: str
    unit: LoadUnit
    settings: tuple[Decimal, ...]
    exercise_id: int | None = None


@dataclass(frozen=True, slots=True)
class Stock:
    """What a venue has to load; `unit` is the one its people read."""

    unit: Unit
    bars: tuple[Bar, ...] = ()
    plates: tuple[Plate, ...] = ()
    dumbbells: tuple[Weight, ...] = ()
    kettlebells: tuple[Weight, ...] = ()
    balls: tuple[Weight, ...] = ()
    scales: tuple[Scale, ...] = ()

    def __hash__(self) -> int:
        """Cheap, for the caches that are asked once a line: a room's stock is one object all through a session."""
        return hash((self.unit, *map(len, (self.bars, self.plates, self.dumbbells, self.kettlebells))))


@dataclass(frozen=True, slots=True)
class BarLoad:
    """A loaded bar: total with bar and collars, plates of one side from the inside out."""

    total: Decimal
    per_side: tuple[Decimal, ...]
    short_by: Decimal


@dataclass(frozen=True, slots=True)
class TooLight:
    """The target is below the lightest that this bar or rack offers."""

    lightest: Decimal
    unit: Unit


def load_bar(target: Decimal, bar: Bar, plates: tuple[Plate, ...]) -> BarLoad | TooLight:
    """Return the heaviest load at or below `target`, in the bar's unit.

    Among equal loads the one with the fewest plates wins, then the most even one: 20 + 20
    before 25 + 15. Plates go on heaviest first. ValueError for a target that is not finite.
    Source: exact subset search over the pairs in stock, calculated; greedy picking misses
    15 + 15 where one pair of 25 and two of 15 stand ready.
    """
    if not target.is_finite():
        raise ValueError(f"the target must be finite, not {target}")
    table = _loads(bar, plates)
    index = bisect_right(table, target, key=_total_of)
    if index == 0:
        return TooLight(bar.empty, bar.unit)
    total, per_side = table[index - 1]
    return BarLoad(total, per_side, target - total)


def loadable_totals(bar: Bar, plates: tuple[Plate, ...]) -> tuple[Decimal, ...]:
    """Return every total that can be loaded, ascending, from the empty bar on."""
    return tuple(total for total, _ in _loads(bar, plates))


def step_above(value: Decimal, totals: tuple[Decimal, ...]) -> Decimal | None:
    """Return the smallest of the ascending `totals` above `value`, None above the last."""
    index = bisect_right(totals, value)
    return totals[index] if index < len(totals) else None


def at_or_below(value: Decimal, totals: tuple[Decimal, ...]) -> Decimal | None:
    """Return the largest of the ascending `totals` at or below `value`, None below the first."""
    index = bisect_right(totals, value)
    return totals[index - 1] if index else None


def pick_weight(
    target: Decimal, weights: tuple[Weight, ...], *, pair: bool, unit: Unit = "kg"
) -> Weight | TooLight | None:
    """Return the heaviest weight at or below `target`, which is per hand and in `unit`.

    A pair needs two of the same. Weights of both units are compared exactly; of equal
    masses the first listed wins. None where the rack holds nothing that fits.
    """
    rack = _rack(weights, 2 if pair else 1)
    if not rack:
        return None
    index = bisect_right(rack, to_kg(target, unit), key=_kg_of)
    if index == 0:
        return TooLight(rack[0][1].mass, rack[0][1].unit)
    return rack[index - 1][1]


@lru_cache(maxsize=512)
def _loads(bar: Bar, plates: tuple[Plate, ...]) -> tuple[tuple[Decimal, tuple[Decimal, ...]], ...]:
    sides = _best_sides(_counts(plate for plate in plates if plate.unit == bar.unit))
    empty = _checked_thousandths(bar.empty, "the bar's mass")
    return tuple((_mass(empty + 2 * side), tuple(map(_mass, sides[side]))) for side in sorted(sides))


@lru_cache(maxsize=512)
def _rack(weights: tuple[Weight, ...], needed: int) -> tuple[tuple[Decimal, Weight], ...]:
    usable = [(to_kg(weight.mass, weight.unit), weight) for weight in weights if weight.count >= needed]
    usable.reverse()
    return tuple(sorted(usable, key=_kg_of))


def _counts(plates: Iterable[Plate]) -> list[tuple[int, int]]:
    pairs: Counter[int] = Counter()
    for plate in plates:
        pairs[_checked_thousandths(plate.mass, "the plate's mass")] += plate.pairs
    return sorted(pairs.items(), reverse=True)


def _best_sides(counts: list[tuple[int, int]]) -> dict[int, _PerSide]:
    """Map each reachable side to its best plates, heaviest first.

    Plates come heaviest first, so a better start stays better whatever is added to it.
    """
    best: dict[int, _PerSide] = {0: ()}
    for mass, pairs in counts:
        for side, plates in tuple(best.items()):
            fitting = min(pairs, (_SIDE_LIMIT - side) // mass, _SIDE_PLATES - len(plates))
            for used in range(1, fitting + 1):
                _keep_better(best, side + used * mass, (*plates, *(mass,) * used))
    return best


def _keep_better(best: dict[int, _PerSide], side: int, plates: _PerSide) -> None:
    known = best.get(side)
    if known is None or (len(plates), plates) < (len(known), known):
        best[side] = plates


def _mass(thousandths: int) -> Decimal:
    whole, rest = divmod(thousandths, 1000)
    return Decimal(f"{whole}.{rest:03}".rstrip("0").rstrip("."))


def _total_of(load: tuple[Decimal, tuple[Decimal, ...]]) -> Decimal:
    return load[0]


def _kg_of(entry: tuple[Decimal, Weight]) -> Decimal:
    return entry[0]
