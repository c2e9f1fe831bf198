"""An athlete's level in a family of exercises: which variation is theirs, and when a step up or down is proposed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Final, Literal

from coachhub.coaching.facts import AthleteFacts, ExerciseFacts, LineFacts, Note, SessionFacts, note

# Both as with loads: two sessions running, and one change a week (common practice).
SESSIONS_RUNNING: Final = 2
DAYS_BETWEEN: Final = 7

Step = Literal["up", "down"]


@dataclass(frozen=True, slots=True)
class LevelSet:
    """A set of the athlete's variation: what was asked for (`low` to `high`) and what was done."""

    entry_id: int
    on_date: date
    amount: Decimal
    low: Decimal
    high: Decimal
    is_clean: bool | None = None


@dataclass(frozen=True, slots=True)
class LevelProposal:
    """A step to the next harder or easier variation, with the sets that speak for it."""

    step: Step
    to_id: int
    trace: tuple[Note, ...]


def at_level(session: SessionFacts, line: LineFacts, athlete: AthleteFacts) -> tuple[ExerciseFacts, tuple[Note, ...]]:
    """Return the exercise of the line for this athlete, and why it is another variation than the written one."""
    written = session.exercises[line.exercise_id]
    own = session.exercises.get(athlete.levels.get(written.family, 0)) if line.by_level and written.family else None
    if own is None or own.id == written.id:
        return written, ()
    return own, (note("level", written=written.name, to=own.name),)


def propose(
    family: Sequence[int], current: int, since: date | None, sets: Sequence[LevelSet], today: date
) -> LevelProposal | None:
    """Propose a step from what was done of the `current` variation since it is theirs, in the last two sessions.

    Up: every set reached the top of its range and none was shaky, with one at least marked clean in each session.
    Down: in both sessions a set stayed below its range, or was shaky. Never within a week of the last change.
    `family`: easiest first. Returns None without a reason, without a week, or at the end of the family.
    """
    if current not in family or (since is not None and (today - since).days < DAYS_BETWEEN):
        return None
    days = sorted({one.on_date for one in sets if since is None or one.on_date >= since})[-SESSIONS_RUNNING:]
    if len(days) < SESSIONS_RUNNING:
        return None
    by_day = [[one for one in sets if one.on_date == day] for day in days]
    if all(_is_mastered(day) for day in by_day):
        return _step(family, current, "up", by_day)
    if all(_is_too_hard(day) for day in by_day):
        return _step(family, current, "down", by_day)
    return None


def _is_mastered(sets: Sequence[LevelSet]) -> bool:
    marks = [one.is_clean for one in sets]
    return all(one.amount >= one.high for one in sets) and False not in marks and True in marks


def _is_too_hard(sets: Sequence[LevelSet]) -> bool:
    return any(one.amount < one.low or one.is_clean is False for one in sets)


def _step(
    family: Sequence[int], current: int, step: Step, by_day: Sequence[Sequence[LevelSet]]
) -> LevelProposal | None:
    place = family.index(current) + (1 if step == "up" else -1)
    if not 0 <= place < len(family):
        return None
    entries = [one.entry_id for day in by_day for one in day]
    told = note(f"level_{step}", *entries, sessions=len(by_day), last=by_day[-1][0].on_date.isoformat())
    return LevelProposal(step, family[place], (told,))
