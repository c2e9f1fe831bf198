"""What an invented athlete can really do on a day: nobody in the story lifts more. Seeded, no database.

A set to failure goes by the rep-max table (science.rep_max); strength drifts upwards from week to week, and a day is
better or worse than that by a few percent.
"""

from __future__ import annotations

from dataclasses import dataclass
from random import Random
from typing import Final

from coachhub.demo.data import SESSIONS_A_WEEK
from coachhub.science.rep_max import MOST_REPS, PERCENT

# What a week of training adds: the newer to it, the more (the demo's own judgement).
GAIN_A_WEEK: Final = {"novice": 0.013, "intermediate": 0.01, "advanced": 0.007}
DAY_NOISE: Final = 0.03
# Every round of a block leaves that share less to lift.
TIRING_A_ROUND: Final = 0.012


@dataclass(frozen=True, slots=True)
class Ability:
    """`seed` names the athlete; `strength` is hers on the first day, against the kilograms of somebody of 1.0."""

    seed: str
    strength: float
    level: str

    def max_kg(self, exercise: str, kg: float, session: int) -> float:
        """Return her one repetition at the most in an exercise that somebody of strength 1.0 does with `kg`."""
        week = session / SESSIONS_A_WEEK
        day = Random(f"{self.seed} {exercise} {session}").uniform(1 - DAY_NOISE, 1 + DAY_NOISE)
        return kg * self.strength * (1 + GAIN_A_WEEK[self.level] * week) * day


def most_reps(load_kg: float, max_kg: float) -> int:
    """Return how many repetitions that load allows, 0 to 15."""
    return max((reps for reps in range(1, MOST_REPS + 1) if PERCENT[reps] / 100 * max_kg >= load_kg), default=0)


def load_for(reps: int, max_kg: float) -> float:
    """Return the kilograms that she can do so many times and no more; the table ends at 15."""
    return PERCENT[min(reps, MOST_REPS)] / 100 * max_kg
