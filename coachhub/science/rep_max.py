"""The table of repetitions to failure at a percentage of the one-repetition maximum (1RM).

Repetitions in reserve (RIR) move along the table: 5 repetitions with 2 in
reserve are the load of 7 to failure. That step is a derivation from the
table, not a published table of its own.
"""

import math

TABLE_VERSION = "1"
"""Changes with the figures below, so that a stored load can name the table it came from."""

_PRINTED_PERCENT: dict[int, float] = {
    1: 100,
    2: 95,
    3: 93,
    4: 90,
    5: 87,
    6: 85,
    7: 83,
    8: 80,
    9: 77,
    10: 75,
    11: 70,
    12: 67,
    15: 65,
}

MOST_REPS = 15


def _percent_at(reps: int) -> float:
    if reps in _PRINTED_PERCENT:
        return _PRINTED_PERCENT[reps]
    return 67 + (reps - 12) * (65 - 67) / (15 - 12)


PERCENT: dict[int, float] = {reps: _percent_at(reps) for reps in range(1, MOST_REPS + 1)}
"""Percent of 1RM for 1 to 15 repetitions to failure; 13 and 14 lie on the line from 12 to 15."""


def percent_for_reps(reps: int, rir: float = 0.0) -> float:
    """Return the percent of 1RM for `reps` with `rir` in reserve, a half step interpolated.

    ValueError for less than 1 repetition, a reserve that is negative or not in
    half steps, or more than 15 repetitions and reserve together.
    Source: NSCA Essentials of Strength Training and Conditioning, 4th ed., Table 17.7
    (11 and 12 from memory); reserve after Zourdos et al. 2016, J Strength Cond Res 30:267-275.
    """
    if reps < 1 or reps != int(reps):
        raise ValueError(f"reps must be a whole number from 1, not {reps}")
    if not math.isfinite(rir) or rir < 0 or rir * 2 != int(rir * 2):
        raise ValueError(f"rir must be 0 or more in half steps, not {rir}")
    to_failure = reps + rir
    if to_failure > MOST_REPS:
        raise ValueError(f"reps and rir together must be at most {MOST_REPS}, not {to_failure}")
    return (PERCENT[math.floor(to_failure)] + PERCENT[math.ceil(to_failure)]) / 2


def reps_for_percent(percent: float) -> int:
    """Return the most repetitions that the table allows at `percent` of 1RM.

    ValueError outside 65 to 100 %.
    Source: as `percent_for_reps`.
    """
    if not PERCENT[MOST_REPS] <= percent <= PERCENT[1]:
        raise ValueError(f"percent must be from 65 to 100, not {percent}")
    return max(reps for reps, at_most in PERCENT.items() if percent <= at_most)


def one_rm_from_set(load_kg: float, reps: int, rir: float = 0.0) -> float:
    """Estimate the 1RM in kg from one set by the table; ValueError as `percent_for_reps`.

    Source: as `percent_for_reps`.
    """
    if not math.isfinite(load_kg) or load_kg <= 0:
        raise ValueError(f"load_kg must be above 0, not {load_kg}")
    return load_kg * 100 / percent_for_reps(reps, rir)
