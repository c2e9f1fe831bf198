"""Own activation work and levels change: coming cards that nobody has begun are then out of date, not changed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from copy import copy
from datetime import date
from typing import Any

from django.db import transaction
from django.db.models import Q

from coachhub.base.actor import Actor
from coachhub.cards.actions.behind import mark_behind
from coachhub.cards.models import Card
from coachhub.plans import actions_own
from coachhub.plans.actions import Step
from coachhub.plans.actions_own import Whose
from coachhub.plans.models import OwnItem, OwnSet
from coachhub.plans.queries_own import plays


@transaction.atomic
def add_own_item(*, actor: Actor, whose: Whose, **values: Any) -> int:
    """As `plans.actions_own.add_item`; returns how many coming cards are out of date by it."""
    return _behind([actions_own.add_item(actor=actor, whose=whose, **values)])


@transaction.atomic
def edit_own_item(*, actor: Actor, item: OwnItem, **values: Any) -> int:
    before = copy(item)
    return _behind([before, item]) if actions_own.edit_item(actor=actor, item=item, **values) else 0


@transaction.atomic
def end_own_item(*, actor: Actor, item: OwnItem) -> int:
    return _behind([item]) if actions_own.end_item(actor=actor, item=item) else 0


def keep_own_item(*, actor: Actor, item: OwnItem, review_on: date | None) -> None:
    """No card says when it is looked at again: none is out of date by it."""
    actions_own.keep_item(actor=actor, item=item, review_on=review_on)


@transaction.atomic
def move_own_item(*, actor: Actor, item: OwnItem, step: Step) -> int:
    return _behind([item]) if actions_own.move_item(actor=actor, item=item, step=step) else 0


@transaction.atomic
def give_own_set(
    *, actor: Actor, own_set: OwnSet, whose: Sequence[Whose], from_on: date, review_on: date | None
) -> tuple[int, int]:
    """How many items are new on all the lists together, and how many coming cards are out of date by them."""
    rows = actions_own.give_set(actor=actor, own_set=own_set, whose=whose, from_on=from_on, review_on=review_on)
    return len(rows), _behind(rows)


def _behind(items: Iterable[OwnItem]) -> int:
    """Mark the cards that any of the items is for, by athlete and day."""
    rows = list(items)
    return mark_behind(_on_them(rows), lambda card: any(_is_on(row, card) for row in rows)) if rows else 0


def _on_them(items: Iterable[OwnItem]) -> Q:
    wanted = Q(pk__in=())
    for row in items:
        if row.athlete_id is not None:
            wanted |= Q(athlete=row.athlete_id)
        elif row.squad_id is not None:
            wanted |= Q(athlete__memberships__squad=row.squad_id)
        else:
            wanted |= ~Q(athlete__position="")
    return wanted


def _is_on(row: OwnItem, card: Card) -> bool:
    return row.is_on(card.assignment.on_date) and plays(row, card.athlete)
