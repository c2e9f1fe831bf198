"""Gives a session to athletes, and renews cards that nobody has begun."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from django.core.exceptions import PermissionDenied
from django.db import transaction

from coachhub.base.actor import Actor
from coachhub.base.clock import now
from coachhub.cards.access import require_edit
from coachhub.cards.actions.absence import note_known_absences
from coachhub.cards.actions.snapshots import layout_of, lines_of, new_revisions
from coachhub.cards.models import Assignment, Card, CardCopy, CopyKind, RevisionReason
from coachhub.cards.queries.resolving import Recipe, holders, recipe_for, recipe_of
from coachhub.library.models import Venue
from coachhub.people.models import Athlete, Squad
from coachhub.plans.models import Session


def assign_session(
    *,
    actor: Actor,
    session: Session,
    squad: Squad | None,
    athletes: Sequence[Athlete],
    venue: Venue,
    on_date: date,
    week: int = 1,
) -> Assignment:
    """Make one assignment and everyone's card; PermissionDenied for a session or athlete the actor does not see.

    Whoever holds a card of this session for that day and venue keeps it: sent twice, this makes one assignment.
    """
    require_reach(actor, session, squad, athletes)
    # Resolved before the transaction: reading and computing must not hold the one writer's lock.
    recipe = recipe_for(session=session, athletes=athletes, venue=venue, on_date=on_date, week=week, squad=squad)
    resolved = recipe.resolve_all()
    with transaction.atomic():
        # Two sendings of one form wait for each other here.
        Session.objects.select_for_update().get(pk=session.pk)
        held = holders(session, on_date, venue, list(resolved))
        if athletes and len(held) == len(resolved):
            return Assignment.objects.get(pk=max(held.values()))
        assignment = Assignment.objects.create(
            session=session,
            squad=squad,
            venue=venue,
            on_date=on_date,
            week=week,
            created_by_id=actor.user_id,
            created_at=now(),
        )
        cards = _new_cards(assignment, recipe, [pk for pk in resolved if pk not in held])
        _write(cards, recipe, RevisionReason.FIRST, actor)
        note_known_absences(cards, on_date)
    return assignment


def _new_cards(assignment: Assignment, recipe: Recipe, athlete_ids: Iterable[int]) -> list[Card]:
    return Card.objects.bulk_create(
        Card(
            assignment=assignment,
            athlete_id=pk,
            session_revision=recipe.session.revision,
            digest=recipe.digest(pk),
            created_at=assignment.created_at,
        )
        for pk in athlete_ids
    )


def _write(cards: list[Card], recipe: Recipe, reason: RevisionReason, actor: Actor) -> None:
    """Write each card's revision from what was resolved for its athlete."""
    by_card = [(card, recipe.resolve(card.athlete_id)) for card in cards]
    new_revisions([(card, layout_of(own), lines_of(own)) for card, own in by_card], reason, actor)


def require_reach(actor: Actor, session: Session, squad: Squad | None, athletes: Sequence[Athlete]) -> None:
    ids = {athlete.pk for athlete in athletes}
    seen = Athlete.objects.visible_to(actor).filter(pk__in=ids).count() == len(ids)
    own_squad = squad is None or Squad.objects.visible_to(actor).filter(pk=squad.pk).exists()
    if not (
        actor.may_write and seen and own_squad and Session.objects.visible_to(actor).filter(pk=session.pk).exists()
    ):
        raise PermissionDenied


@transaction.atomic
def cancel_assignment(*, actor: Actor, assignment: Assignment) -> None:
    """Take an assignment back. What was logged on its cards stays a fact and stays in history."""
    if not actor.may_write or not Assignment.objects.visible_to(actor).filter(pk=assignment.pk).exists():
        raise PermissionDenied
    assignment.cancelled_at = now()
    assignment.save(update_fields=["cancelled_at"])


def renew_card(*, actor: Actor, card: Card) -> bool:
    """Make the card anew from the session as it is now; False, and nothing changes, once it is begun."""
    require_edit(actor, card)
    return bool(_renew([card], actor))


def renew_stale(*, actor: Actor, assignment: Assignment) -> int:
    """Renew every card of the assignment that is out of date and not begun; returns how many."""
    cards = Card.objects.editable_by(actor).stale().filter(assignment=assignment)
    return _renew(list(cards), actor)


def _renew(cards: list[Card], actor: Actor) -> int:
    if not cards:
        return 0
    recipe = recipe_of(cards)
    recipe.resolve_all()  # before the lock
    with transaction.atomic():
        # Read again under the lock: somebody may have logged a first set meanwhile.
        ids = [card.pk for card in cards]
        fresh = list(Card.objects.select_for_update().filter(pk__in=ids, started_at=None).order_by("pk"))
        write_anew(fresh, recipe, RevisionReason.RENEWED, actor)
    return len(fresh)


def write_anew(cards: list[Card], recipe: Recipe, reason: RevisionReason, actor: Actor) -> None:
    """Inside a transaction: give locked cards that nobody has begun a new revision of what the recipe makes."""
    for card in cards:
        card.revision_number += 1
        card.session_revision = recipe.session.revision
        card.is_behind = False
        card.digest = recipe.digest(card.athlete_id)
    Card.objects.bulk_update(cards, ["revision_number", "session_revision", "is_behind", "digest"])
    _write(cards, recipe, reason, actor)


@transaction.atomic
def note_copies(*, cards: Iterable[tuple[int, int]], kind: CopyKind) -> None:
    """Remember who holds a copy: (card, revision) pairs that were printed or kept on a phone."""
    made_at = now()
    CardCopy.objects.bulk_create(
        CardCopy(card_id=card_id, revision_number=number, kind=kind, made_at=made_at) for card_id, number in cards
    )
