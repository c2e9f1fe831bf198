"""What comes after what: speed while fresh, jumps with their lift, nothing that tires the same twice in a row."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from coachhub.coaching.coverage import COUNTED_PARTS
from coachhub.coaching.review.findings import Finding, joined, params
from coachhub.coaching.review.flow import sets_in_order, until_pattern
from coachhub.coaching.review.reading import ReadBlock, ReadLine, ReadSession
from coachhub.coaching.review.rules import Thresholds, finding

# In fewer rounds a short rest is no conditioning yet (common practice).
MANY_ROUNDS: Final = 3
_BRACED: Final = frozenset({"hinge", "squat"})
_TRUNK: Final = frozenset({"trunk", "carry"})


def speed_after_strength(session: ReadSession, thresholds: Thresholds) -> Iterator[Finding]:
    """Speed work behind loaded strength work, unless it belongs to the lift just before it."""
    lifted: ReadLine | None = None
    for line, before in _with_line_before(session):
        if line.is_speed and lifted is not None and line.group.segment in {"athleticism", "strength"}:
            if not line.facts.pair_with and lift_before(line, before) is None:
                yield finding(
                    "speed_after_strength",
                    about=line.facts.key,
                    where=(line.where,),
                    params=params(name=line.exercise.name, after=lifted.label),
                    suggestion="put_first",
                )
        elif line.is_strength and line.is_loaded and not line.is_speed:
            lifted = lifted or line


def _with_line_before(session: ReadSession) -> Iterator[tuple[ReadLine, ReadLine | None]]:
    """Each line with the one before it in its block."""
    for block in session.blocks:
        before = None
        for line in block.lines:
            yield line, before
            before = line


def lift_before(line: ReadLine, before: ReadLine | None) -> ReadLine | None:
    """The lift just before that speed work is paired with: by the coach's word, or because it is heavy."""
    if before is None or not line.is_speed or before.is_speed:
        return None
    return before if before.facts.key == line.facts.pair_with or before.is_heavy else None


def jump_pair_apart(session: ReadSession, thresholds: Thresholds) -> Iterator[Finding]:
    lines = {line.facts.key: line for line in session.lines}
    for line, before in _with_line_before(session):
        lift = lines.get(line.facts.pair_with)
        if line.is_speed and lift is not None and lift is not before:
            yield finding(
                "jump_pair_apart",
                about=line.facts.key,
                where=(line.where,),
                params=params(name=line.exercise.name, lift=lift.label, lift_name=lift.exercise.name),
                suggestion="put_behind_lift",
            )


def jump_pair_reps(session: ReadSession, thresholds: Thresholds) -> Iterator[Finding]:
    most = thresholds.whole("jump_pair_reps")
    for line, before in _with_line_before(session):
        lift = lift_before(line, before)
        if not line.is_jump or lift is None or lift.reps is None or line.reps is None:
            continue
        if abs(lift.reps - line.reps) > most:
            yield finding(
                "jump_pair_reps",
                about=line.facts.key,
                where=(line.where,),
                params=params(name=line.exercise.name, reps=line.reps, lift=lift.label, lift_reps=lift.reps),
                found=str(abs(lift.reps - line.reps)),
                limit=str(most),
                suggestion="match_reps",
            )


def jump_dense(session: ReadSession, thresholds: Thresholds) -> Iterator[Finding]:
    """Jumps that come round again too soon, and any in a part for conditioning."""
    least_s = thresholds.whole("jump_dense")
    for block in session.blocks:
        if block.group.segment not in COUNTED_PARTS:
            continue
        sets = sets_in_order(block)
        for line in (one for one in block.lines if one.is_jump):
            gap_s = until_pattern(line, sets)
            is_dense = gap_s is not None and gap_s < least_s and line.facts.sets >= MANY_ROUNDS
            if is_dense or block.group.segment == "conditioning":
                yield finding(
                    "jump_dense",
                    about=line.facts.key,
                    where=(line.where,),
                    params=params(name=line.exercise.name, rounds=line.facts.sets, part=block.group.segment),
                    found="" if gap_s is None else str(gap_s),
                    limit=str(least_s),
                    suggestion="jump_apart",
                )


def grip_in_row(session: ReadSession, thresholds: Thresholds) -> Iterator[Finding]:
    for first, second in _in_row(session, thresholds.whole("grip_in_row")):
        if tires_grip(first) and tires_grip(second):
            yield _tired("grip_in_row", first, second, thresholds)


def trunk_in_row(session: ReadSession, thresholds: Thresholds) -> Iterator[Finding]:
    for first, second in _in_row(session, thresholds.whole("trunk_in_row")):
        if tires_trunk(first) and tires_trunk(second):
            yield _tired("trunk_in_row", first, second, thresholds)


def _in_row(session: ReadSession, rest_s: int) -> Iterator[tuple[ReadLine, ReadLine]]:
    """Two neighbours of a block for strength or power with less rest between them than that."""
    blocks: Iterator[ReadBlock] = (block for block in session.blocks if block.is_heavy)
    for block in blocks:
        yield from (pair for pair in pairwise(block.lines) if pair[0].facts.rest_after_s < rest_s)


def tires_grip(line: ReadLine) -> bool:
    """What hangs from the hand; a weight that is pressed rests in it."""
    return line.exercise.is_grip and line.main != "push"


def tires_trunk(line: ReadLine) -> bool:
    """Trunk work and carries; and what the trunk holds up under a bar."""
    patterns = set(line.exercise.patterns)
    is_braced = bool(patterns & _BRACED) and line.exercise.load_meaning == "bar_total"
    return is_braced or bool(patterns & _TRUNK)


def _tired(code: str, first: ReadLine, second: ReadLine, thresholds: Thresholds) -> Finding:
    return finding(
        code,
        about=joined((first.facts.key, second.facts.key)),
        where=(first.where, second.where),
        params=params(first=first.exercise.name, second=second.exercise.name),
        found=str(first.facts.rest_after_s),
        limit=str(thresholds.whole(code)),
        suggestion="other_between",
    )
