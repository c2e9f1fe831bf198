"""What a test on changes at the door does with the evening."""

from __future__ import annotations

from uuid import UUID, uuid4

from coachhub.cards.actions import log_round_as_planned
from coachhub.cards.actions.door import Outcome, change_at_door, undo_at_door, undoable_change
from coachhub.cards.actions.door_lines import CardPlan
from coachhub.cards.models import Card
from coachhub.coaching.door import DoorStep
from coachhub.plans.models import Prescription
from tests.cards.conftest import Evening, tap


def key(evening: Evening, label: str) -> str:
    return next(group.key for group in evening.sheet().blocks if group.label == label)


def block_off(evening: Evening, label: str) -> DoorStep:
    return DoorStep("block", key(evening, label), label=label)


def rounds(evening: Evening, label: str, was: int, now: int) -> DoorStep:
    return DoorStep("rounds", key(evening, label), now, label, str(was), str(now))


def swap(evening: Evening, line: Prescription, exercise_id: int) -> DoorStep:
    return DoorStep("swap", line.line_key, exercise_id, "A1", "Front squat", "another")


def change(evening: Evening, *steps: DoorStep, card: Card | None = None, uuid: UUID | None = None) -> Outcome:
    return change_at_door(
        actor=evening.coach, assignment=evening.assignment, steps=steps, uuid=uuid or uuid4(), card=card
    )


def undo(evening: Evening) -> tuple[CardPlan, ...]:
    newest = undoable_change(evening.assignment)
    assert newest is not None
    return undo_at_door(actor=evening.coach, change=newest)


def do_round(evening: Evening, number: int = 1) -> None:
    sheet = evening.sheet()
    done = tap(number, sheet.next_seq)
    log_round_as_planned(actor=evening.phone, card=evening.card(), sheet=sheet, group_key=key(evening, "A"), tap=done)


def stays(plans: tuple[CardPlan, ...]) -> list[tuple[str, str]]:
    return [(stay.what, stay.why) for plan in plans for stay in plan.stays]
