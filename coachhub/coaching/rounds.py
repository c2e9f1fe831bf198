"""How the sets of a line and the rounds of its block go together.

A line does one set in each round; it may stop earlier, never later. Alone in its block, its sets are the rounds.
"""

from dataclasses import dataclass

from coachhub.coaching.notation import Dose


@dataclass(frozen=True, slots=True)
class Rounds:
    low: int
    high: int

    def __str__(self) -> str:
        return str(self.low) if self.low == self.high else f"{self.low}-{self.high}"


@dataclass(frozen=True, slots=True)
class Placed:
    """What is stored: `sets` None for one in each round, and the rounds of the block after it."""

    sets: int | None
    rounds: Rounds


class SetsMisfitError(ValueError):
    """More sets than the block has rounds, or a range that differs from theirs."""

    def __init__(self, rounds: Rounds) -> None:
        self.rounds = rounds
        super().__init__(f"the block has {rounds} rounds")


def place_sets(dose: Dose, rounds: Rounds, *, is_only_line: bool) -> Placed:
    """Fit the sets that were typed, if any, to the block; SetsMisfitError where they cannot fit."""
    if dose.sets_min is None or dose.sets_max is None:
        return Placed(None, rounds)
    typed = Rounds(dose.sets_min, dose.sets_max)
    if is_only_line:
        return Placed(None, typed)
    if typed == rounds:
        return Placed(None, rounds)
    if typed.low == typed.high <= rounds.low:
        return Placed(typed.low, rounds)
    raise SetsMisfitError(rounds)


def kept_sets(sets: int | None, rounds: Rounds) -> int | None:
    """The sets of a line after its block's rounds have changed: still fewer, or one in each round."""
    if sets is None or Rounds(sets, sets) == rounds or sets > rounds.low:
        return None
    return sets
