"""Who may write which dates, and who reads why somebody is absent."""

from __future__ import annotations

from django.core.exceptions import PermissionDenied

from coachhub.base.actor import HEALTH, Actor, ActorKind
from coachhub.people.models import Athlete, Squad


def may_write_squad(actor: Actor, squad_id: int | None) -> bool:
    """Coaches on their squads' dates."""
    return actor.may_write and squad_id is not None and Squad.objects.visible_to(actor).filter(pk=squad_id).exists()


def may_write_athlete(actor: Actor, athlete_id: int | None) -> bool:
    """An athlete on their own dates, coaches on those of athletes they see."""
    if actor.kind is ActorKind.ATHLETE:
        return athlete_id in actor.athlete_ids
    if athlete_id is None or not actor.may_write:
        return False
    return Athlete.objects.visible_to(actor).filter(pk=athlete_id).exists()


def require_dates(actor: Actor, *, squad_id: int | None = None, athlete_id: int | None = None) -> None:
    may = may_write_squad(actor, squad_id) if athlete_id is None else may_write_athlete(actor, athlete_id)
    if not may:
        raise PermissionDenied


def sees_reason(actor: Actor, athlete_id: int) -> bool:
    """ "Ill" says something of health: whoever reads health, and the athlete; everyone else reads "absent"."""
    return actor.kind in HEALTH or athlete_id in actor.athlete_ids
