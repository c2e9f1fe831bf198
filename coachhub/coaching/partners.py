"""Who shares a station: pairs, and one three where the number is odd, with the fewest plates and hooks to move.

A pair goes back and forth between two loads each round, and a three between its lightest and its heaviest, so what is
moved is the spread of the group (common practice: the bar stays where it is, the plates follow). Exact arithmetic, no
randomness: the same athletes always give the same groups, in whatever order they come.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Final

# Hooks and safety arms set to another hole take about as long as ten kilograms of plates (from memory).
HOLE_KG: Final = Decimal(10)
# Another exercise is another station in all but name.
EXERCISE_KG: Final = Decimal(1000)
# For each athlete as many of the next ones are tried: beyond that nobody's load is near.
REACH: Final = 5
MOST: Final = 3

Pair = frozenset[int]
# Broken wishes first, then kilograms.
Cost = tuple[int, Decimal]
_FREE: Final[Cost] = (0, Decimal(0))


@dataclass(frozen=True, slots=True)
class Lifter:
    """`exercise_id` and `load_kg` of the first barbell line, `hole` of the rack for it; None where there is none."""

    id: int
    exercise_id: int | None = None
    load_kg: Decimal | None = None
    hole: int | None = None


@dataclass(frozen=True, slots=True)
class Wishes:
    together: frozenset[Pair] = frozenset()
    apart: frozenset[Pair] = frozenset()


def partners(
    lifters: Collection[Lifter], wishes: Wishes | None = None, stations: int | None = None
) -> tuple[tuple[int, ...], ...]:
    """Return groups of two and three, the lightest first; somebody who is alone makes a group of one.

    `stations`: how many stand there (None: enough). Threes then, where twos would be more groups than that; for more
    than three times as many people all are threes, as far as that goes, and there are more groups than stations.
    Wishes go before plates: apart before together where both cannot be.
    """
    ordered = sorted(lifters, key=_place)
    if len(ordered) <= 1:
        return tuple((one.id,) for one in ordered)
    solver = _Solver(ordered, wishes or Wishes(), most_groups(len(ordered), stations))
    return tuple(tuple(ordered[at].id for at in group) for group in solver.groups())


def most_groups(count: int, stations: int | None) -> int:
    """Return into how many groups that many people may be parted."""
    if stations is None:
        return count // 2
    return max(min(count // 2, stations), -(-count // MOST))


def _place(one: Lifter) -> tuple[int, Decimal, int, int]:
    """Who lifts nothing known stands with the lightest."""
    return (one.exercise_id or 0, one.load_kg or Decimal(0), one.hole or 0, one.id)


class _Solver:
    """The cheapest way to share out whoever is left, remembered by who that is and how many groups they may make."""

    def __init__(self, lifters: Sequence[Lifter], wishes: Wishes, groups: int) -> None:
        self.lifters = lifters
        self.most_groups = groups
        places = {one.id: at for at, one in enumerate(lifters)}
        self.together = _by_place(wishes.together, places)
        self.apart = _by_place(wishes.apart, places)
        self.costs: dict[tuple[int, ...], Cost] = {}
        self.known: dict[tuple[tuple[int, ...], int], tuple[Cost, tuple[tuple[int, ...], ...]]] = {}

    def groups(self) -> tuple[tuple[int, ...], ...]:
        return self._best(tuple(range(len(self.lifters))), self.most_groups)[1]

    def _best(self, left: tuple[int, ...], room: int) -> tuple[Cost, tuple[tuple[int, ...], ...]]:
        if not left:
            return _FREE, ()
        # Room for twos alone is room enough: the same answer for all of it.
        key = left, min(room, len(left) // 2)
        if key not in self.known:
            self.known[key] = min(self._ways(*key))
        return self.known[key]

    def _ways(self, left: tuple[int, ...], room: int) -> Iterator[tuple[Cost, tuple[tuple[int, ...], ...]]]:
        for group in self._first_groups(left, room):
            rest = tuple(at for at in left if at not in group)
            cost, others = self._best(rest, room - 1)
            own = self._cost(group)
            yield (cost[0] + own[0], cost[1] + own[1]), (group, *others)

    def _first_groups(self, left: tuple[int, ...], room: int) -> Iterator[tuple[int, ...]]:
        """Groups of the first who is left; a three only where the number is odd, there is no room, or wishes ask."""
        first, near = left[0], self._near(left)
        if len(left) != MOST and len(left) - 2 <= (room - 1) * MOST:
            yield from ((first, other) for other in near)
        is_tight = len(left) > room * 2
        for place, second in enumerate(near):
            for third in near[place + 1 :]:
                group = (first, second, third)
                if len(left) - MOST != 1 and (is_tight or len(left) % 2 or self._is_wished(group)):
                    yield group

    def _near(self, left: tuple[int, ...]) -> tuple[int, ...]:
        """The next ones, and whoever belongs to the first by a wish or through somebody who does."""
        first, others = left[0], left[1:]
        if len(others) <= REACH:
            return others
        allowed = [at for at in others if frozenset((first, at)) not in self.apart] or others
        wished = self._wished(self._wished(frozenset((first,)))) & set(others)
        return tuple(sorted({*allowed[:REACH], *wished}))

    def _wished(self, found: frozenset[int]) -> frozenset[int]:
        return found.union(*(pair for pair in self.together if pair & found))

    def _is_wished(self, group: tuple[int, ...]) -> bool:
        return sum(pair <= set(group) for pair in self.together) >= MOST - 1

    def _cost(self, group: tuple[int, ...]) -> Cost:
        if group not in self.costs:
            ids = frozenset(group)
            apart = sum(pair <= ids for pair in self.apart)
            # A pair that is parted is met in both its groups, so each counts it half; apart outweighs them all.
            parted = sum(len(pair & ids) == 1 for pair in self.together)
            broken = apart * 2 * (1 + len(self.together)) + parted
            self.costs[group] = (broken, spread([self.lifters[at] for at in group]))
        return self.costs[group]


def _by_place(pairs: frozenset[Pair], places: Mapping[int, int]) -> frozenset[Pair]:
    """Of those who are here."""
    return frozenset(frozenset(places[pk] for pk in pair) for pair in pairs if pair <= set(places))


def spread(group: Sequence[Lifter]) -> Decimal:
    """Return what is moved in a group, in kilograms of plates."""
    loads = [one.load_kg or Decimal(0) for one in group]
    holes = [one.hole for one in group if one.hole is not None]
    moved = HOLE_KG if holes and min(holes) != max(holes) else Decimal(0)
    other = len({one.exercise_id for one in group}) - 1
    return max(loads) - min(loads) + moved + other * EXERCISE_KG
