"""A step on the way back: coming cards that nobody has begun are then out of date, not changed."""

from __future__ import annotations

from django.db import transaction
from django.db.models import Q

from coachhub.base.actor import Actor
from coachhub.cards.actions.behind import mark_behind
from coachhub.people.actions import levels
from coachhub.people.models import Athlete


@transaction.atomic
def set_return_stage(*, actor: Actor, athlete: Athlete, stage: int, on_word_of: str) -> int:
    """As `people.actions.levels.set_return_stage`; returns how many coming cards are out of date by it."""
    is_other = levels.set_return_stage(actor=actor, athlete=athlete, stage=stage, on_word_of=on_word_of)
    return mark_behind(Q(athlete=athlete)) if is_other else 0
