"""How an invented athlete trains her card: what she takes, how many, whether it looks clean. Seeded, no database.

She takes what is planned; less on a day when that is too heavy; one step more where it leaves too much in reserve and
the rules of coaching.loads would let a coach write it: after a set marked clean, and once a week, for minors and
newcomers.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from decimal import Decimal
from random import Random
from typing import Any, Final
from uuid import UUID

from coachhub.cards.actions import EntryDraft, amount_columns
from coachhub.cards.models import EntryKind
from coachhub.coaching.evidence import has_risen_lately, heaviest, is_new_to_weights, proofs, sets_here
from coachhub.coaching.facts import AthleteFacts, DayFacts, Mass, VenueFacts
from coachhub.coaching.obstacles import held_by_pain, load_caps
from coachhub.coaching.resolve import ResolvedCard, ResolvedGroup, ResolvedLine
from coachhub.demo.truth import TIRING_A_ROUND, Ability, load_for, most_reps

MINUTES_A_ROUND: Final = 4
EASY_WEEK: Final = 4
# Who finds a load leaves that many repetitions in reserve; more where nobody has seen her lift yet.
FIND_RESERVE: Final = 4
ROOM: Final = 2
RISE_CHANCE: Final = 0.6
SKIP_CHANCE: Final = 0.012
CARRY_SHARE: Final = 0.85
MOST_RIR_HALF: Final = 10
WATCHED: Final = 0.67
# By repetitions left in reserve.
SHAKY_CHANCE: Final = {0: 0.5, 1: 0.2}


@dataclass(frozen=True, slots=True)
class Lift:
    """`kg`: one repetition at the most for somebody of strength 1.0."""

    key: str
    kg: float


@dataclass(frozen=True, slots=True)
class Trainee:
    """An athlete on the day of the session of that number, with what is known of her."""

    ability: Ability
    lifts: Mapping[int, Lift]
    facts: AthleteFacts
    venue: VenueFacts
    day: DayFacts
    session: int
    rng: Random

    def max_kg(self, exercise_id: int) -> float | None:
        """Return None for an exercise the story does not know."""
        lift = self.lifts.get(exercise_id)
        return self.ability.max_kg(lift.key, lift.kg, self.session) if lift else None


@dataclass(frozen=True, slots=True)
class Written:
    """One set as she writes it. `is_clean` None: nobody was looking; `left`: what she had in reserve in truth."""

    draft: EntryDraft
    is_clean: bool | None
    left: int | None


def new_uuid(rng: Random) -> UUID:
    return UUID(int=rng.getrandbits(128), version=4)


def lettered(card: ResolvedCard) -> list[ResolvedGroup]:
    """Return the blocks, which are what is logged."""
    return [group for group in card.groups if group.group.label]


def train_card(trainee: Trainee, card: ResolvedCard, rounds: Sequence[int], start: datetime) -> list[Written]:
    """Return every set of the first `rounds` of each block, in the order in which they were done."""
    written: list[Written] = []
    for group, count in zip(lettered(card), rounds, strict=False):
        written += _train_block(trainee, group, count, start)
        start += timedelta(minutes=MINUTES_A_ROUND * (count + 1))
    return written


def _train_block(trainee: Trainee, group: ResolvedGroup, rounds: int, start: datetime) -> list[Written]:
    lines = [line for line in group.lines if line.status == "planned"]
    taken = {line.line.key: take(trainee, line) for line in lines}
    written = []
    for number in range(1, min(rounds, group.group.rounds_max) + 1):
        done_at = start + timedelta(minutes=MINUTES_A_ROUND * number, seconds=trainee.rng.randrange(50))
        for line in lines:
            if number <= line.line.sets:
                written += _set(trainee, line, taken[line.line.key], number, done_at)
    return written


def take(trainee: Trainee, line: ResolvedLine) -> Mass | None:
    """Return a load of the room that she can do for the reps asked for."""
    most = trainee.max_kg(line.exercise.id)
    if line.exercise.load_meaning == "none" or line.rule == "none" or not line.steps or most is None:
        return line.load
    if line.load is None:
        return _heaviest(line, _fitting_kg(line, most, FIND_RESERVE))
    if line.load_high is not None:
        return _heaviest(line, min(_fitting_kg(line, most, ROOM), float(line.load_high.kg)))
    if float(line.load.kg) > _fitting_kg(line, most, 0):
        return _heaviest(line, _fitting_kg(line, most, 1))
    return _next_step(trainee, line, line.load, most) or line.load


def _fitting_kg(line: ResolvedLine, most: float, reserve: int) -> float:
    return load_for(int(line.dose.low) + reserve, most) if line.dose.kind == "reps" else most * CARRY_SHARE


def _heaviest(line: ResolvedLine, kg: float) -> Mass | None:
    return max((step for step in line.steps if float(step.kg) <= kg), key=lambda step: step.kg, default=None)


def _next_step(trainee: Trainee, line: ResolvedLine, planned: Mass, most: float) -> Mass | None:
    """Return the next heavier load where she has room for it, feels like it, and may."""
    asked = (line.dose.rir_half or 0) // 2
    above = next((step for step in line.steps if step.kg > planned.kg), None)
    if above is None or float(above.kg) > _fitting_kg(line, most, max(asked, ROOM)):
        return None
    is_wanted = trainee.day.week != EASY_WEEK and trainee.rng.random() < RISE_CHANCE
    return above if is_wanted and _may_rise(trainee, line, above) else None


def _may_rise(trainee: Trainee, line: ResolvedLine, to: Mass) -> bool:
    facts, exercise = trainee.facts, line.exercise
    if held_by_pain(exercise, facts) or load_caps(exercise, facts):
        return False
    best = None if exercise.load_meaning == "machine" else facts.bests.get(exercise.id)
    found = proofs(sets_here(exercise, facts, trainee.venue), best, line.dose)
    top = heaviest(found)
    if top is None or top.load is None:
        return False
    if to.kg <= top.load.kg:
        return True
    if any(top.load.kg < step.kg < to.kg for step in line.steps):
        return False
    return not is_new_to_weights(facts) or (top.is_clean is True and not has_risen_lately(found, trainee.day.on_date))


def _set(trainee: Trainee, line: ResolvedLine, load: Mass | None, number: int, done_at: datetime) -> list[Written]:
    """One round of a line: two sets where each side has its own."""
    rng = trainee.rng
    sides = ("left", "right") if line.dose.per == "side" else ("both",)
    able = _able(trainee, line, load, number)
    reps = _reps(line, number, able, rng)
    left = None if able is None else able - int(reps)
    is_told = trainee.facts.is_rir_taught and number == line.line.sets and left is not None
    how: dict[str, Any] = {
        "load": load,
        "rir_half": _told_reserve(left or 0, rng) if is_told else None,
        **(amount_columns("reps", reps) if reps else amount_columns(line.dose.kind, Decimal(line.dose.low))),
    }
    is_clean = _looks_clean(left, rng)
    if number > 1 and rng.random() < SKIP_CHANCE:
        how, is_clean = {"kind": EntryKind.SKIPPED}, None
    return [
        Written(EntryDraft(new_uuid(rng), line.line.key, number, done_at, number, side, **how), is_clean, left)
        for side in sides
    ]


def _able(trainee: Trainee, line: ResolvedLine, load: Mass | None, number: int) -> int | None:
    """Return the most repetitions that this load leaves her in this round; None where nobody can say."""
    most = trainee.max_kg(line.exercise.id)
    if load is None or most is None or line.dose.kind != "reps":
        return None
    return most_reps(float(load.kg), most * (1 - TIRING_A_ROUND * (number - 1)))


def _reps(line: ResolvedLine, number: int, able: int | None, rng: Random) -> Decimal:
    """In a range fewer from round to round; never more than she can. Nothing where no repetitions are counted."""
    low, high = line.dose.low, line.dose.high
    if line.dose.kind not in ("reps", "contacts"):
        return Decimal(0)
    wanted = low if high is None else max(low, high - Decimal(number - rng.choice((0, 1))))
    return Decimal(wanted) if able is None else min(Decimal(wanted), Decimal(able))


def _told_reserve(left: int, rng: Random) -> int:
    """Return half repetitions in reserve: nobody feels them exactly."""
    return max(0, min(MOST_RIR_HALF, 2 * left + rng.choice((-2, -1, 0, 0, 1))))


def _looks_clean(left: int | None, rng: Random) -> bool | None:
    """Two of three loaded sets are watched; the nearer to the limit, the sooner form goes."""
    if left is None or rng.random() > WATCHED:
        return None
    return rng.random() >= SHAKY_CHANCE.get(left, 0.03)
