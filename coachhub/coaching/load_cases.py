"""What the load of one line is worked out from, and what comes out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from coachhub.coaching.facts import AthleteFacts, DayFacts, DoneSet, ExerciseFacts, Mass, Note, VenueFacts
from coachhub.coaching.notation import Dose, LoadRule
from coachhub.coaching.rungs import Ladder

STEPS_EACH_WAY = 8


@dataclass(frozen=True, slots=True)
class LoadPlan:
    """`load` is what to lift, None where there is nothing to write; `is_too_light`: the room's lightest is heavier."""

    rule: LoadRule
    load: Mass | None = None
    load_high: Mass | None = None
    words: str = ""
    per_side: tuple[Decimal, ...] = ()
    bar: str = ""
    steps: tuple[Mass, ...] = ()
    last: DoneSet | None = None
    trace: tuple[Note, ...] = ()
    is_too_light: bool = False


@dataclass(frozen=True, slots=True)
class Case:
    """One line's question, with what the answer is drawn from."""

    exercise: ExerciseFacts
    dose: Dose
    athlete: AthleteFacts
    venue: VenueFacts
    day: DayFacts
    is_swapped: bool
    ladder: Ladder | None
    last: DoneSet | None
    found: Sequence[DoneSet]


@dataclass(frozen=True, slots=True)
class Target:
    """What the rule asks for, in kg, before any limit; no kg: nothing is known, find it (or words say it)."""

    rule: LoadRule
    kg: Decimal | None = None
    high_kg: Decimal | None = None
    trace: tuple[Note, ...] = ()
