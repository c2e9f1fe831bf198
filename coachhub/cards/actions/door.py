"""Changes a session at the door, for everybody or for one, and puts the last change back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from uuid import UUID

from django.core.exceptions import PermissionDenied
from django.db import transaction

from coachhub.base.actor import Actor
from coachhub.base.clock import now
from coachhub.cards.actions.door_lines import CardPlan, HeldCard, Stay, held_cards, plan_cards
from coachhub.cards.actions.door_undoing import plan_undo
from coachhub.cards.actions.snapshots import new_revisions
from coachhub.cards.models import Assignment, Card, CardQuerySet, DoorChange, RevisionReason
from coachhub.cards.queries.resolving import Recipe, recipe_of
from coachhub.coaching.door import DoorStep
from coachhub.library.models import Venue


@dataclass(frozen=True, slots=True)
class Outcome:
    """`change` is None where nothing would have changed, and so nothing was written."""

    change: DoorChange | None
    plans: tuple[CardPlan, ...] = ()


def change_at_door(
    *, actor: Actor, assignment: Assignment, steps: Sequence[DoorStep], uuid: UUID, card: Card | None = None
) -> Outcome:
    """Write the steps as a new revision of every card they change; sent twice, it is done once.

    They stay in force: cards that are made or resolved again later have them too.
    """
    recipe, latest = _recipe(actor, assignment, steps, card), _latest(assignment)
    with transaction.atomic():
        locked = Assignment.objects.select_for_update().get(pk=assignment.pk)
        stored = DoorChange.objects.filter(uuid=uuid).first()
        if stored is not None:
            return Outcome(stored)
        if _latest(assignment) == latest:
            change = DoorChange(uuid=uuid, assignment=locked, card=card, made_at=now(), made_by_id=actor.user_id)
            change.steps = [asdict(step) for step in steps]
            return _write(actor, change, steps, recipe)
    # Somebody else changed the session meanwhile, so it is worked out again.
    return change_at_door(actor=actor, assignment=assignment, steps=steps, uuid=uuid, card=card)


def preview_at_door(
    *, actor: Actor, assignment: Assignment, steps: Sequence[DoorStep], card: Card | None = None
) -> tuple[CardPlan, ...]:
    """Return what each card would be, in the order of names; nothing is written."""
    recipe = _recipe(actor, assignment, steps, card)
    return _plans(list(door_cards(actor, assignment, card)), steps, recipe, is_for_all=card is None)


def door_cards(actor: Actor, assignment: Assignment, card: Card | None = None) -> CardQuerySet:
    """The cards that the actor may change here, by name."""
    rows = Card.objects.editable_by(actor).filter(assignment=assignment)
    rows = rows if card is None else rows.filter(pk=card.pk)
    return rows.select_related("athlete").order_by("athlete__search_key", "pk")


def _recipe(actor: Actor, assignment: Assignment, steps: Sequence[DoorStep], card: Card | None) -> Recipe:
    cards = list(door_cards(actor, assignment, card))
    if not cards:
        raise PermissionDenied
    return recipe_of(cards, more=steps, venue=_venue_of(steps))


def _venue_of(steps: Sequence[DoorStep]) -> Venue | None:
    return next((Venue.objects.get(pk=step.value) for step in steps if step.do == "venue"), None)


def _latest(assignment: Assignment) -> tuple[int, int]:
    """What says whether another change came or went."""
    rows = DoorChange.objects.filter(assignment=assignment)
    return rows.count(), rows.exclude(undone_at=None).count()


def _plans(cards: list[Card], steps: Sequence[DoorStep], recipe: Recipe, *, is_for_all: bool) -> tuple[CardPlan, ...]:
    """Who trains elsewhere already stays there when the others move."""
    is_move = is_for_all and any(step.do == "venue" for step in steps)
    held = held_cards([card for card in cards if card.athlete_id in recipe.athletes])
    going = [one for one in held if not (is_move and one.card.venue_id)]
    staying = [CardPlan.unchanged(one, Stay("", "elsewhere")) for one in held if is_move and one.card.venue_id]
    return (*plan_cards(going, steps, recipe), *staying)


def _write(actor: Actor, change: DoorChange, steps: Sequence[DoorStep], recipe: Recipe) -> Outcome:
    """Store the change with all it does; nothing at all where it does nothing."""
    assignment, card, venue = change.assignment, change.card, _venue_of(steps)
    pks = list(door_cards(actor, assignment, card).order_by().values_list("pk", flat=True))
    cards = list(Card.objects.select_for_update().filter(pk__in=pks).order_by("pk"))
    plans = _plans(cards, steps, recipe, is_for_all=card is None)
    if venue is None and not any(plan.is_changed for plan in plans):
        return Outcome(None, plans)
    if venue is not None:
        change.venue_before_id = card.place_id if card else assignment.venue_id
        _move(assignment, card, venue.pk)
    change.save()
    _write_plans(plans, RevisionReason.DOOR, change, actor)
    return Outcome(change, plans)


def _move(assignment: Assignment, card: Card | None, venue_id: int) -> None:
    if card is None:
        assignment.venue_id = venue_id
        assignment.save(update_fields=["venue"])
    else:
        own = None if venue_id == assignment.venue_id else venue_id
        Card.objects.filter(pk=card.pk).update(venue=own)


def _write_plans(plans: Sequence[CardPlan], reason: RevisionReason, change: DoorChange, actor: Actor) -> None:
    going = [plan for plan in plans if plan.is_changed]
    for plan in going:
        plan.held.card.revision_number += 1
    Card.objects.bulk_update([plan.held.card for plan in going], ["revision_number"])
    written = [(plan.held.card, plan.layout, list(plan.lines)) for plan in going]
    new_revisions(written, reason, actor, change)


def undo_at_door(*, actor: Actor, change: DoorChange) -> tuple[CardPlan, ...]:
    """Put back what the newest change did, as a new revision of each card; () where that is no longer to be had.

    What was written since stays, and so does what another revision has changed since.
    """
    assignment = Assignment.objects.get(pk=change.assignment_id)
    cards = list(door_cards(actor, assignment, change.card))
    if not cards:
        raise PermissionDenied
    recipe = recipe_of(cards, but=change.pk, venue=change.venue_before)
    with transaction.atomic():
        Assignment.objects.select_for_update().get(pk=assignment.pk)
        if undoable_change(assignment) != change:
            return ()
        locked = Card.objects.select_for_update(of=("self",)).select_related("athlete")
        locked = locked.filter(pk__in=[card.pk for card in cards]).order_by("pk")
        held = [one for one in held_cards(list(locked)) if _is_concerned(one, change)]
        plans = plan_undo(held, change, recipe)
        change.undone_at, change.undone_by_id = now(), actor.user_id
        change.save(update_fields=["undone_at", "undone_by"])
        if change.venue_before_id:
            _move(assignment, change.card, change.venue_before_id)
        _write_plans(plans, RevisionReason.DOOR_UNDONE, change, actor)
    return plans


def _is_concerned(held: HeldCard, change: DoorChange) -> bool:
    return change.venue_before_id is None or change.card_id is not None or held.card.venue_id is None


def undoable_change(assignment: Assignment) -> DoorChange | None:
    """The newest change, unless it is undone already."""
    newest = DoorChange.objects.filter(assignment=assignment).select_related("card", "venue_before").last()
    return newest if newest is not None and newest.undone_at is None else None
