"""Volume load: what was lifted, times how often.

A set worked one side at a time counts as one set for each side, and a pair of
dumbbells counts with both masses. Bodyweight work has repetitions only and
stays out of the sum.
"""

from collections.abc import Iterable
from decimal import Decimal

Lifted = tuple[Decimal, int]
"""Load and repetitions of one set."""


def volume_load(sets: Iterable[Lifted]) -> Decimal:
    """Return the sum of load times repetitions, in the unit of the loads.

    ValueError for a negative or endless load and for negative repetitions.
    Source: NSCA Essentials of Strength Training and Conditioning, volume-load (rule for
    sides and pairs from memory).
    """
    return sum((_checked(load, reps) for load, reps in sets), Decimal(0))


def total_reps(sets: Iterable[Lifted]) -> int:
    """Return the repetitions of all sets.

    Source: as `volume_load`.
    """
    return sum(reps for _, reps in sets)


def mean_intensity(sets: Iterable[Lifted]) -> Decimal:
    """Return the mean load of a repetition; ValueError where there is no repetition.

    Source: as `volume_load`.
    """
    done = tuple(sets)
    reps = total_reps(done)
    if reps == 0:
        raise ValueError("no repetition, so no mean load")
    return volume_load(done) / reps


def _checked(load: Decimal, reps: int) -> Decimal:
    if not load.is_finite() or load < 0 or reps < 0:
        raise ValueError(f"load and repetitions must be 0 or more, not {load} x {reps}")
    return load * reps
