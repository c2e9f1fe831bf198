"""When each set of a block begins and ends, and so how long it takes until a line or a pattern comes round again.

What lies between counts as rest, whatever it is filled with. Rests at the lower end of what is written, since that is
what an athlete may take; without a written one nothing but the way to the next exercise.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from coachhub.coaching.review.reading import ReadBlock, ReadLine
from coachhub.coaching.timing import CHANGE_OVER_S, LIGHT_CHANGE_OVER_S, set_seconds


@dataclass(frozen=True, slots=True)
class TimedSet:
    line: ReadLine
    starts_s: int
    ends_s: int


def change_over(block: ReadBlock) -> int:
    return CHANGE_OVER_S if block.is_loaded_up else LIGHT_CHANGE_OVER_S


def sets_in_order(block: ReadBlock) -> list[TimedSet]:
    """Every set of every round, from zero."""
    found: list[TimedSet] = []
    way_s = change_over(block) if len(block.lines) > 1 else 0
    works_s = [set_seconds(line.timed) for line in block.lines]
    for number in range(block.group.rounds_max):
        going = [pair for pair in zip(block.lines, works_s, strict=True) if pair[0].facts.sets > number]
        for place, (line, work_s) in enumerate(going):
            rest_s = (block.group.rest_min_s or 0) if place == 0 else 0
            pause_s = max(way_s, rest_s, found[-1].line.facts.rest_after_s) if found else 0
            starts_s = found[-1].ends_s + pause_s if found else 0
            found.append(TimedSet(line, starts_s, starts_s + work_s))
    return found


def until_pattern(line: ReadLine, sets: Sequence[TimedSet]) -> int | None:
    """Least seconds from a set of the line to the next of its pattern; None where none follows.

    The jump that belongs to a lift does not count as its pattern, nor the lift as the jump's.
    """
    return _least_gap(sets, line, lambda one: one.main == line.main)


def until_line(line: ReadLine, sets: Sequence[TimedSet]) -> int | None:
    return _least_gap(sets, line, lambda one: one is line)


def _least_gap(sets: Sequence[TimedSet], line: ReadLine, is_next: Callable[[ReadLine], bool]) -> int | None:
    gaps = []
    for place, one in enumerate(sets):
        if one.line is line:
            following = next((later for later in sets[place + 1 :] if is_next(later.line)), None)
            if following is not None:
                gaps.append(following.starts_s - one.ends_s)
    return min(gaps, default=None)


def has_rest(block: ReadBlock) -> bool:
    """Whether any rest is written; if none is, it is unknown rather than too short."""
    return block.group.rest_min_s is not None or any(line.facts.rest_after_s for line in block.lines)
