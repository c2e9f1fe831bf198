"""What to cut for somebody who comes late, so that they end with the others. Warm-up and what prepares is never cut."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from coachhub.coaching.timing import TimedBlock, TimedPart, time_session


@dataclass(frozen=True, slots=True)
class LateCut:
    """`rounds`: what is left of each block by its letter, 0 for a block that goes; empty: the session as it is."""

    rounds: tuple[tuple[str, int], ...]
    minutes: int
    fits: bool


def late_cuts(parts: Sequence[TimedPart], minutes_left: int) -> tuple[LateCut, ...]:
    """Return what may be offered, the least cut first, up to the first that fits into the minutes.

    As it is; a round less of each block; the last block less; both; and so on, while a block is left.
    """
    blocks = [block for part in parts for block in part.blocks if block.label and block.lines]
    found = []
    for wanted in _candidates(blocks):
        minutes = time_session([_cut(part, wanted) for part in parts], minutes_left).minutes
        found.append(LateCut(tuple(wanted.items()), minutes, minutes <= minutes_left))
        if found[-1].fits:
            break
    return tuple(found)


def _candidates(blocks: Sequence[TimedBlock]) -> list[dict[str, int]]:
    found: list[dict[str, int]] = []
    for kept in range(len(blocks), 0, -1):
        gone = {block.label: 0 for block in blocks[kept:]}
        less = {block.label: block.rounds - 1 for block in blocks[:kept] if block.rounds > 1}
        found += [gone, less | gone] if less else [gone]
    return found


def _cut(part: TimedPart, wanted: Mapping[str, int]) -> TimedPart:
    return replace(part, blocks=tuple(_shorter(block, wanted) for block in part.blocks))


def _shorter(block: TimedBlock, wanted: Mapping[str, int]) -> TimedBlock:
    rounds = wanted.get(block.label, block.rounds)
    return replace(block, rounds=rounds) if rounds else replace(block, rounds=0, lines=())
