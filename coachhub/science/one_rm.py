"""Estimated one-repetition maximum (1RM) from one set near failure.

Every figure is an estimate. The formulas hold for 1 to 10 repetitions
(Reynolds, Gordon & Robergs 2006, J Strength Cond Res 20:584-592); at one
repetition each returns the load itself, though five of the seven would
compute more than was lifted.
"""

import math
from collections.abc import Callable
from functools import wraps

MOST_REPS = 10

Formula = Callable[[float, int], float]


def _within_range(formula: Formula) -> Formula:
    @wraps(formula)
    def estimate(load_kg: float, reps: int) -> float:
        if not math.isfinite(load_kg) or load_kg <= 0:
            raise ValueError(f"load_kg must be above 0, not {load_kg}")
        if reps not in range(1, MOST_REPS + 1):
            raise ValueError(f"reps must be a whole number from 1 to {MOST_REPS}, not {reps}")
        return float(load_kg) if reps == 1 else formula(load_kg, reps)

    return estimate


@_within_range
def epley(load_kg: float, reps: int) -> float:
    """Estimate the 1RM in kg; ValueError outside 1-10 reps or for no load.

    Source: Epley 1985, Poundage chart, Boyd Epley Workout; with 1/30, not 0.0333.
    """
    return load_kg * (1 + reps / 30)


@_within_range
def brzycki(load_kg: float, reps: int) -> float:
    """Estimate the 1RM in kg; ValueError outside 1-10 reps or for no load.

    Source: Brzycki 1993, JOPERD 64:88-90; in whole numbers, not 1.0278 - 0.0278 r.
    """
    return load_kg * 36 / (37 - reps)


@_within_range
def lander(load_kg: float, reps: int) -> float:
    """Estimate the 1RM in kg; ValueError outside 1-10 reps or for no load.

    Source: Lander 1985, NSCA Journal 6:60-61.
    """
    return 100 * load_kg / (101.3 - 2.67123 * reps)


@_within_range
def lombardi(load_kg: float, reps: int) -> float:
    """Estimate the 1RM in kg; ValueError outside 1-10 reps or for no load.

    Source: Lombardi 1989, Beginning Weight Training.
    """
    return load_kg * math.pow(reps, 0.10)


@_within_range
def mayhew(load_kg: float, reps: int) -> float:
    """Estimate the 1RM in kg; ValueError outside 1-10 reps or for no load.

    Source: Mayhew et al. 1992, J Appl Sport Sci Res 6:200-206.
    """
    return 100 * load_kg / (52.2 + 41.9 * math.exp(-0.055 * reps))


@_within_range
def oconner(load_kg: float, reps: int) -> float:
    """Estimate the 1RM in kg; ValueError outside 1-10 reps or for no load.

    Source: O'Conner, Simmons & O'Shea 1989, Weight Training Today (title from memory).
    """
    return load_kg * (1 + 0.025 * reps)


@_within_range
def wathen(load_kg: float, reps: int) -> float:
    """Estimate the 1RM in kg; ValueError outside 1-10 reps or for no load.

    Source: Wathen 1994, in Baechle (ed.), Essentials of Strength Training and Conditioning.
    """
    return 100 * load_kg / (48.8 + 53.8 * math.exp(-0.075 * reps))
