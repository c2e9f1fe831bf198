"""How an invented athlete trains: what she takes, how many she does, whether it looks clean. Seeded, no database."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from decimal import Decimal
from random import Random
from typing import Final
from uuid import UUID

from coachhub.cards.actions import EntryDraft, Tap
from coachhub.cards.actions.as_planned import planned_draft
from coachhub.cards.sheet import SheetGroup, SheetLine
from coachhub.coaching.facts import Mass

MINUTES_A_ROUND: Final = 4
GROWTH_A_SESSION: Final = 0.011
# Above this share of what she can do, a set begins to look shaky; below the other, she takes the next weight.
LIMIT: Final = 1.02
ROOM: Final = 0.95
# Somebody who finds a load stops well before the limit.
FIND: Final = 0.86
# Week 4 of the plan: nobody takes more than is written.
EASY_SESSIONS: Final = frozenset({6, 7})


@dataclass(frozen=True, slots=True)
class Trainee:
    """`strength` against the kilograms in `lifts` (for strength 1.0, per exercise) on the day of `session`."""

    strength: float
    lifts: Mapping[int, float]
    is_rir_taught: bool
    session: int
    rng: Random

    def able_kg(self, exercise_id: int) -> float | None:
        """Return what she can lift in good form on that day; None for an exercise the story does not know."""
        base = self.lifts.get(exercise_id)
        if base is None:
            return None
        return base * self.strength * (1 + GROWTH_A_SESSION * self.session) * self.rng.uniform(0.96, 1.04)


@dataclass(frozen=True, slots=True)
class Taken:
    """What she takes for an exercise's sets today, and its share of what she can."""

    load: Mass | None
    share: float


@dataclass(frozen=True, slots=True)
class Written:
    """One set as she writes it; `is_clean` None: nobody was looking."""

    draft: EntryDraft
    is_clean: bool | None


def new_uuid(rng: Random) -> UUID:
    return UUID(int=rng.getrandbits(128), version=4)


def train_block(trainee: Trainee, group: SheetGroup, rounds: int, start: datetime) -> list[Written]:
    """Return every set of the block's first rounds, in the order in which they were done."""
    taken = {line.key: take(trainee, line) for line in group.lines}
    written = []
    for number in range(1, min(rounds, group.rounds_max) + 1):
        done_at = start + timedelta(minutes=MINUTES_A_ROUND * number, seconds=trainee.rng.randrange(50))
        tap = Tap(new_uuid(trainee.rng), number, number, done_at)
        for line in group.lines:
            if line.cell(number) is not None:
                is_last = number in (len(line.cells), rounds)
                written += _set(trainee, line, tap, taken[line.key], is_last=is_last)
    return written


def take(trainee: Trainee, line: SheetLine) -> Taken:
    able = trainee.able_kg(line.exercise_id)
    load = _load(trainee, line, able)
    return Taken(load, float(load.kg) / able if load is not None and able else 0.0)


def _load(trainee: Trainee, line: SheetLine, able: float | None) -> Mass | None:
    """Return a load that stands in the room, near the planned one where there is one."""
    if line.load_meaning == "none" or line.load_rule == "none" or not line.steps:
        return None
    if line.load is None:
        return _heaviest(line, (able or 0) * FIND)
    if able is None:
        return line.load
    if line.load_high is not None:
        return _heaviest(line, min(able, float(line.load_high.kg)))
    step = _step(trainee, float(line.load.kg) / able)
    other = _neighbour(line, line.load, step)
    return line.load if step > 0 and float(other.kg) > able else other


def _step(trainee: Trainee, share: float) -> int:
    """Return 1 for the next heavier load, -1 for the lighter one, mostly 0."""
    if share < ROOM and trainee.session not in EASY_SESSIONS:
        return int(trainee.rng.random() < 0.45)
    return -int(share > 1.05 and trainee.rng.random() < 0.6)


def _heaviest(line: SheetLine, kg: float) -> Mass:
    """Return the heaviest step at or below, the lightest where all are above."""
    return max((step for step in line.steps if float(step.kg) <= kg), key=_kg, default=line.steps[0])


def _neighbour(line: SheetLine, load: Mass, step: int) -> Mass:
    """Return the load so many steps away, itself at the end of the ladder."""
    place = line.steps.index(load) + step if load in line.steps else -1
    return line.steps[place] if 0 <= place < len(line.steps) else load


def _kg(mass: Mass) -> Decimal:
    return mass.kg


def _set(trainee: Trainee, line: SheetLine, tap: Tap, taken: Taken, *, is_last: bool) -> list[Written]:
    """One round of a line: two sets where each side has its own."""
    share, rng = taken.share, trainee.rng
    rir_half = _reserve(line, share, rng) if trainee.is_rir_taught and is_last and share else None
    is_clean = rng.random() > (0.55 if share > LIMIT else 0.05) if share and rng.random() < 0.7 else None
    reps = _reps(line, tap.number, share, rng, is_last=is_last)
    drafts = [planned_draft(line, side, tap) for side in line.sides]
    return [Written(replace(one, load=taken.load, rir_half=rir_half, reps=reps), is_clean) for one in drafts]


def _reps(line: SheetLine, number: int, share: float, rng: Random, *, is_last: bool) -> int | None:
    """In a range fewer from round to round; now and then one short in the last round where it was heavy."""
    if line.dose_kind not in ("reps", "contacts"):
        return None
    low = int(line.low)
    if line.high is not None:
        return max(low, int(line.high) - number + rng.choice((0, 1)))
    return low - 1 if is_last and low > 2 and share > LIMIT and rng.random() < 0.4 else low


def _reserve(line: SheetLine, share: float, rng: Random) -> int:
    """Return half repetitions in reserve: what was asked for, fewer the heavier it was."""
    asked = line.rir_half if line.rir_half is not None else 4
    return max(0, min(10, asked + round((1 - share) * 20) + rng.choice((-1, 0, 0, 1))))
