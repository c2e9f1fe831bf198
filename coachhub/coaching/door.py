"""A session changed at the door of the gym: a block left out, rounds cut or added, an exercise swapped.

The change goes on top of the session as facts, before it is resolved: so whatever is resolved later (a guest's card,
a card after a restriction) has it too, and the plan itself stays as it was written.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from coachhub.coaching.facts import (
    AthleteFacts,
    ExerciseFacts,
    GroupFacts,
    LineFacts,
    Note,
    SessionFacts,
    VenueFacts,
    note,
)
from coachhub.coaching.obstacles import health_obstacles, unsupervised

DoorDo = Literal["block", "rounds", "swap", "venue"]


@dataclass(frozen=True, slots=True)
class DoorStep:
    """`key`: of the block, or of the line for a swap. `value`: rounds, exercise or venue. The rest is for words."""

    do: DoorDo
    key: str = ""
    value: int = 0
    label: str = ""
    was: str = ""
    now: str = ""


def changed_session(session: SessionFacts, steps: Sequence[DoorStep]) -> SessionFacts:
    """Return the session with the steps in force, in their order; of several swaps of a line the last one counts."""
    swaps = {step.key: step for step in steps if step.do == "swap"}
    groups = session.groups
    for step in (*swaps.values(), *(step for step in steps if step.do in ("block", "rounds"))):
        groups = tuple(_changed(group, step) for group in groups)
    return replace(session, groups=groups)


def _changed(group: GroupFacts, step: DoorStep) -> GroupFacts:
    if step.do == "swap":
        return replace(group, lines=tuple(_swapped(line, step) for line in group.lines))
    if group.key != step.key:
        return group
    if step.do == "block":
        return replace(group, lines=tuple(_left_out(line) for line in group.lines))
    low, high = rounds_after(group.rounds_min, group.rounds_max, step.value)
    lines = tuple(replace(line, sets=sets_after(line.sets, group.rounds_max, high)) for line in group.lines)
    return replace(group, rounds_min=low, rounds_max=high, lines=lines)


def _swapped(line: LineFacts, step: DoorStep) -> LineFacts:
    if line.key != step.key or line.exercise_id == step.value:
        return line
    others = tuple(swap for swap in line.swap_ids if swap != step.value)
    return replace(line, against=(note("door_swap"),), swap_ids=(step.value, *others))


def _left_out(line: LineFacts) -> LineFacts:
    return replace(line, against=(note("door_block"),), swap_ids=())


def rounds_after(low: int, high: int, wanted: int) -> tuple[int, int]:
    """Return the fewest and the most rounds, with `wanted` as the most: cut from the end, or as many more at both."""
    return (min(low, wanted), wanted) if wanted <= high else (low + wanted - high, wanted)


def sets_after(sets: int, was: int, now: int) -> int:
    """Return the sets of a line whose block had `was` rounds: one a round stays one a round, fewer stay fewer."""
    return now if sets >= was else min(sets, now)


def stands_against(exercise: ExerciseFacts, athlete: AthleteFacts, venue: VenueFacts) -> tuple[Note, ...]:
    """Return what takes even a line that is begun off the card: health, and nobody there to supervise."""
    return (*health_obstacles(exercise, athlete), *unsupervised(exercise, athlete, venue))
