"""A level changes: coming cards that speak of the family are out of date by it. A proposal is answered by a coach."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from django.db import transaction
from django.db.models import Q
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.cards.actions.behind import mark_behind
from coachhub.cards.queries.levels import ProposedStep
from coachhub.cards.words import note_text
from coachhub.library.models import Exercise
from coachhub.people.actions import levels
from coachhub.people.models import Athlete
from coachhub.plans.models import Prescription

REASON_LENGTH = 200


@dataclass(frozen=True, slots=True)
class NewLevel:
    athlete: Athlete
    family: str
    exercise: Exercise | None
    reason: str


@transaction.atomic
def set_levels(*, actor: Actor, new: Sequence[NewLevel], from_on: date) -> int:
    """Returns how many coming cards are out of date by it."""
    ids: set[int] = set()
    for one in new:
        is_other = levels.set_level(
            actor=actor,
            athlete=one.athlete,
            family=one.family,
            exercise=one.exercise,
            from_on=from_on,
            reason=one.reason,
        )
        if is_other:
            ids |= _cards_of(one, from_on)
    return mark_behind(Q(pk__in=ids)) if ids else 0


def answer_steps(*, actor: Actor, steps: Sequence[ProposedStep], is_accepted: bool) -> int:
    """Take the steps, or stay where they are: either way the sets until now have had their answer."""
    return set_levels(
        actor=actor,
        new=[
            NewLevel(
                step.athlete,
                step.family,
                step.to if is_accepted else step.level.exercise,
                step_reason(step) if is_accepted else stay_reason(step),
            )
            for step in steps
        ],
        from_on=today(),
    )


def step_reason(step: ProposedStep) -> str:
    return " ".join(note_text(one) for one in step.trace)[:REASON_LENGTH]


def stay_reason(step: ProposedStep) -> str:
    told = _("Stays: a step up was declined.") if step.is_up else _("Stays: a step down was declined.")
    return str(told)


def _cards_of(new: NewLevel, from_on: date) -> set[int]:
    lines = Prescription.objects.filter(is_by_level=True, exercise__family=new.family)
    sessions = lines.values("group__segment__session")
    rows = new.athlete.cards.filter(assignment__session__in=sessions, assignment__on_date__gte=max(from_on, today()))
    return set(rows.values_list("pk", flat=True))
