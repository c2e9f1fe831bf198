"""Who a request comes from, and what their role may see of a person."""

from __future__ import annotations

import hashlib
import secrets
from typing import Final

from django.contrib.auth.models import AnonymousUser

from coachhub.base.actor import ANONYMOUS, HEALTH, STAFF, Actor, ActorKind
from coachhub.people.models import Device, Staff, User

PHONE_COOKIE: Final = "coachhub_phone"
TOKEN_BYTES: Final = 32


def new_token() -> str:
    """A secret for a link or a phone: 256 bits from the system's generator."""
    return secrets.token_urlsafe(TOKEN_BYTES)


def token_hash(token: str) -> str:
    """What is stored of a secret. It is long and random, so a fast hash is enough."""
    return hashlib.sha256(token.encode()).hexdigest()


def staff_actor(user: User | AnonymousUser) -> Actor | None:
    """The actor of a logged-in member of the staff; None for nobody, or for someone who has left."""
    if not isinstance(user, User):
        return None
    staff = Staff.objects.filter(user=user, archived_at=None).first()
    if staff is None:
        return None
    squads = frozenset(staff.staff_squads.filter(squad__archived_at=None).values_list("squad_id", flat=True))
    return Actor(ActorKind(staff.role), user_id=user.pk, staff_id=staff.pk, squad_ids=squads, name=staff.name)


def phone_actor(token: str) -> Actor | None:
    """The athlete whose bound phone shows this token; None if it is unknown, revoked, or the athlete has left."""
    device = (
        Device.objects.filter(token_hash=token_hash(token), revoked_at=None, athlete__archived_at=None)
        .select_related("athlete")
        .first()
        if token
        else None
    )
    if device is None:
        return None
    own = frozenset([device.athlete_id])
    return Actor(ActorKind.ATHLETE, athlete_ids=own, device_id=device.pk, name=device.athlete.name)


def actor_for(user: User | AnonymousUser, phone_token: str) -> Actor:
    """Staff first: a coach who tries a phone's page stays a coach."""
    return staff_actor(user) or phone_actor(phone_token) or ANONYMOUS


def sees_diagnosis(actor: Actor) -> bool:
    return actor.kind in HEALTH


def sees_private_note(actor: Actor) -> bool:
    """The coach's note on an athlete: not the athlete, nor those who only read availability."""
    return actor.kind in STAFF - {ActorKind.HEAD_COACH, ActorKind.ASSISTANT}
