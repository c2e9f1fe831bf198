"""A slipped digit or point must not become the next load: what is far above all the rest waits for a coach's mark.

The figures are product choices: a real rise between two sessions is a few steps, a slip is tenfold.
"""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import Final

from coachhub.coaching.facts import DoneSet, Mass

FAR_TIMES: Final = Decimal("1.5")
FAR_KG: Final = 10
# Where nothing is known yet.
FIRST_KG: Final = 200
FIRST_KG_NEW: Final = 60
# Below the smallest step that plates make: the same load in another unit.
SAME_KG: Final = Decimal("0.3")


def is_far_above(kg: Decimal, known_kg: Decimal | None, *, is_new: bool) -> bool:
    """Return whether a load in kg is too far above the heaviest known (None: nothing known) to be taken unasked."""
    if known_kg is None:
        return kg > (FIRST_KG_NEW if is_new else FIRST_KG)
    return kg > known_kg * FAR_TIMES and kg > known_kg + FAR_KG


def is_as_planned(done: Mass, low: Mass, high: Mass) -> bool:
    """Return whether a load lies in what was planned; a number of a plate only agrees with one of its own stack."""
    if (done.unit == "pl") != (low.unit == "pl"):
        return False
    return low.kg - SAME_KG < done.kg < high.kg + SAME_KG


def believed(
    sets: Sequence[DoneSet], known_kg: Decimal | None, *, is_new: bool
) -> tuple[Sequence[DoneSet], DoneSet | None]:
    """Return the sets (oldest first) without those far above all before them, and the latest of those.

    A set marked clean is believed: somebody saw it.
    """
    doubted: list[DoneSet] = []
    for done in sets:
        load = done.load
        if load is None or (known_kg is not None and load.kg <= known_kg):
            continue
        if not done.is_clean and is_far_above(load.kg, known_kg, is_new=is_new):
            doubted.append(done)
        else:
            known_kg = load.kg
    if not doubted:
        return sets, None
    return [done for done in sets if done not in doubted], doubted[-1]
