"""Who may write what on a card."""

from __future__ import annotations

from django.core.exceptions import PermissionDenied

from coachhub.base.actor import HEALTH, Actor, ActorKind
from coachhub.cards.models import Assignment, Card
from coachhub.people.models import Athlete, Restriction


def may_log(actor: Actor, card: Card) -> bool:
    """The athlete on their own card; staff on the floor on cards they see."""
    if actor.kind is ActorKind.ATHLETE:
        return card.athlete_id in actor.athlete_ids
    return actor.may_log and Card.objects.visible_to(actor).filter(pk=card.pk).exists()


def require_log(actor: Actor, card: Card) -> None:
    if not may_log(actor, card):
        raise PermissionDenied


def require_edit(actor: Actor, card: Card) -> None:
    if not Card.objects.editable_by(actor).filter(pk=card.pk).exists():
        raise PermissionDenied


def require_athlete(actor: Actor, athlete: Athlete, kinds: frozenset[ActorKind] = HEALTH) -> None:
    """The actor is of one of those kinds and sees the athlete."""
    if actor.kind not in kinds or not Athlete.objects.visible_to(actor).filter(pk=athlete.pk).exists():
        raise PermissionDenied


def may_lift(actor: Actor, restriction: Restriction) -> bool:
    """A clinician's hold is cleared by a clinician; any other by whoever sees the athlete's health."""
    if restriction.is_clinical:
        return actor.kind is ActorKind.CLINICIAN
    return actor.kind in HEALTH


def sees_assignment(actor: Actor, pk: int, squad_id: int | None) -> bool:
    """What `Assignment.visible_to` says, for one whose squad is known already; mostly without a query."""
    if actor.sees_all:
        return True
    if not (actor.may_log or actor.sees_health):
        return False
    if squad_id is not None:
        return squad_id in actor.squad_ids
    return Assignment.objects.visible_to(actor).filter(pk=pk).exists()
