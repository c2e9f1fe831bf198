"""How long a block of exercises done in rounds takes."""

import math
from collections.abc import Sequence


def work_seconds(reps: int, seconds_per_rep: int, sides: int = 1) -> int:
    """Return the seconds of one exercise in one round; one side after the other doubles it.

    Source: common practice.
    """
    return reps * seconds_per_rep * sides


def block_seconds(*, setup_s: int, rounds: int, works_s: Sequence[int], change_over_s: int, rest_s: int) -> int:
    """Return the seconds of a block: set-up, rounds, and the rests between the rounds.

    `works_s` holds the work of each exercise in one round, `change_over_s` passes between
    two exercises, and no rest follows the last round. ValueError below one round, without
    an exercise, or for a negative time.
    Source: common practice, calculated.
    """
    if rounds < 1 or not works_s:
        raise ValueError("a block has at least one round and one exercise")
    if min(setup_s, change_over_s, rest_s, *works_s) < 0:
        raise ValueError("a time cannot be negative")
    round_s = sum(works_s) + change_over_s * (len(works_s) - 1)
    return setup_s + rounds * round_s + (rounds - 1) * rest_s


def shared_rest_seconds(rest_s: int, *, athletes: int, work_s: int) -> int:
    """Return the rest where `athletes` share one station: the others have to work in it.

    ValueError for less than one athlete.
    Source: common practice, rest of at least (athletes - 1) x work.
    """
    if athletes < 1:
        raise ValueError(f"athletes must be 1 or more, not {athletes}")
    return max(rest_s, (athletes - 1) * work_s)


def whole_minutes(seconds: int) -> int:
    """Return the minutes to plan for, rounded up.

    Source: common practice.
    """
    return math.ceil(seconds / 60)
