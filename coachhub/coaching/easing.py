"""Coming back: fewer sets first, then less load, in steps. After a break, and on the stages a coach or clinician sets.

The shares are common practice: no published figure is claimed. The tool never moves a stage by itself.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from typing import Final

from coachhub.coaching.coverage import COUNTED_PARTS
from coachhub.coaching.facts import AthleteFacts, ExerciseFacts, Gap, GroupFacts, LineFacts, Note, SessionFacts, note

GAP_DAYS: Final = 14
LONG_GAP_DAYS: Final = 28


@dataclass(frozen=True, slots=True)
class Share:
    """Percent of the written sets, and of the load that would be asked for otherwise."""

    sets: int
    load: int


@dataclass(frozen=True, slots=True)
class Ease:
    share: Share
    trace: tuple[Note, ...]


# Stage 1 is the first step back; after the last one nothing is eased any more.
STAGES: Final = {1: Share(50, 70), 2: Share(75, 80), 3: Share(100, 90)}
# The first times after a break, and after a long one.
AFTER_GAP: Final = (Share(60, 90), Share(80, 95))
AFTER_LONG_GAP: Final = (Share(50, 80), Share(60, 90), Share(80, 95))


def latest_gap(trained: Sequence[date], on: date, gap_days: int = GAP_DAYS) -> Gap | None:
    """Return the latest break of at least `gap_days` that is still to be eased on that day; None without one.

    `trained`: days on which the pattern was trained before, oldest first. Who never trained it comes back from nothing.
    """
    days = [day for day in trained if day < on]
    for times_since, (before, after) in enumerate(zip(reversed(days), [on, *reversed(days)], strict=False)):
        length = (after - before).days
        if length >= gap_days:
            gap = Gap(length, times_since)
            return gap if _steps(gap)[times_since:] else None
        if times_since >= len(AFTER_LONG_GAP):
            break
    return None


def ease_of(exercise: ExerciseFacts, athlete: AthleteFacts) -> Ease | None:
    """Return how the exercise is eased for this athlete: by the stage, by a break, or by the lower of both."""
    found = []
    if athlete.return_stage:
        share = STAGES[min(athlete.return_stage, max(STAGES))]
        found.append((share, note("return_stage", stage=athlete.return_stage, sets=share.sets, load=share.load)))
    gap = athlete.gaps.get(exercise.patterns[0]) if exercise.patterns else None
    if gap is not None and (steps := _steps(gap)[gap.times_since :]):
        told = note("after_gap", pattern=exercise.patterns[0], days=gap.days, sets=steps[0].sets, load=steps[0].load)
        found.append((steps[0], told))
    if not found:
        return None
    share = Share(min(one.sets for one, _ in found), min(one.load for one, _ in found))
    return Ease(share, tuple(told for _, told in found))


def eased_group(group: GroupFacts, session: SessionFacts, athlete: AthleteFacts) -> GroupFacts:
    """Return the block with fewer sets where somebody comes back; where all its lines have fewer, with fewer rounds."""
    if group.segment not in COUNTED_PARTS or not (athlete.return_stage or athlete.gaps) or not group.lines:
        return group
    lines = tuple(_eased_line(line, session, athlete) for line in group.lines)
    most = max(line.sets for line in lines)
    if most >= group.rounds_max:
        return replace(group, lines=lines)
    return replace(group, lines=lines, rounds_min=min(group.rounds_min, most), rounds_max=most)


def _eased_line(line: LineFacts, session: SessionFacts, athlete: AthleteFacts) -> LineFacts:
    ease = ease_of(session.exercises[line.exercise_id], athlete)
    return replace(line, sets=eased_sets(line.sets, ease.share.sets)) if ease else line


def eased_sets(sets: int, percent: int) -> int:
    """Return that share of the sets, to the nearest whole one; never none."""
    return max(1, int((Decimal(sets) * percent / 100).quantize(Decimal(1), ROUND_HALF_UP)))


def _steps(gap: Gap) -> tuple[Share, ...]:
    return AFTER_LONG_GAP if gap.days >= LONG_GAP_DAYS else AFTER_GAP
