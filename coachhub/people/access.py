"""Who a request comes from, and what their role may see of a person."""

from __future__ import annotations

import hashlib
import secrets
from typing import Final

from django.conf import settings
from django.contrib.auth.models import AnonymousUser
from django.utils.crypto import salted_hmac

from coachhub.base.actor import ANONYMOUS, FLOOR, HEALTH, STAFF, Actor, ActorKind
from coachhub.base.statements import Statement
from coachhub.people.models import Athlete, Device, Staff, User

# The prefix makes browsers refuse the cookie from a neighbouring host or an unsafe line.
PHONE_COOKIE: Final = "__Host-coachhub_phone" if settings.SESSION_COOKIE_SECURE else "coachhub_phone"
TOKEN_BYTES: Final = 32
# Who must be able to act when something happens: whoever stands on the floor, and the clinician.
EMERGENCY: Final = FLOOR | {ActorKind.CLINICIAN}
# Crockford's base 32: no letter that is taken for a digit; what people type instead is read as meant.
CODE_ALPHABET: Final = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
CODE_LENGTH: Final = 8
_AS_MEANT: Final = str.maketrans({"O": "0", "I": "1", "L": "1", "-": None, "–": None, " ": None})


def new_token() -> str:
    """A secret for a link or a phone: 256 bits from the system's generator."""
    return secrets.token_urlsafe(TOKEN_BYTES)


def token_hash(token: str) -> str:
    """What is stored of a secret. It is long and random, so a fast hash is enough."""
    return hashlib.sha256(token.encode()).hexdigest()


def new_code() -> str:
    """Short enough to type: 40 bits, good for minutes or days, once; shown in two halves."""
    letters = "".join(secrets.choice(CODE_ALPHABET) for _ in range(CODE_LENGTH))
    return f"{letters[:4]}-{letters[4:]}"


def code_hash(typed: str) -> str:
    """With the installation's own key, because a code is short. Dash, spaces and lower case make no difference."""
    return salted_hmac("coachhub.enrolment", typed.upper().translate(_AS_MEANT), algorithm="sha256").hexdigest()


_STAFF: Final = Statement(
    ("pk", "role", "name", "staff_squads__squad", "staff_squads__squad__archived_at"),
    lambda user: Staff.objects.filter(user=user, archived_at=None),
)
_PHONES: Final = Statement(
    ("pk", "athlete_id", "athlete__given_name", "athlete__family_name"),
    lambda hashed: Device.objects.filter(token_hash=hashed, revoked_at=None, athlete__archived_at=None),
)


def staff_actor(user: User | AnonymousUser) -> Actor | None:
    """The actor of a logged-in member of the staff; None for nobody, or for someone who has left."""
    if not isinstance(user, User):
        return None
    rows = _STAFF.rows(user.pk)
    if not rows:
        return None
    pk, role, name = rows[0][:3]
    squads = frozenset(squad for *_, squad, archived_at in rows if squad is not None and archived_at is None)
    return Actor(ActorKind(role), user_id=user.pk, staff_id=pk, squad_ids=squads, name=name)


def phone_actor(token: str) -> Actor | None:
    """The athlete whose bound phone shows this token; None if it is unknown, revoked, or the athlete has left."""
    for phone in _PHONES.rows(token_hash(token)) if token else ():
        athlete = Athlete(given_name=phone.athlete__given_name, family_name=phone.athlete__family_name)
        return Actor(
            ActorKind.ATHLETE, athlete_ids=frozenset([phone.athlete_id]), device_id=phone.pk, name=athlete.name
        )
    return None


def actor_for(user: User | AnonymousUser, phone_token: str) -> Actor:
    """Staff first: a coach who tries a phone's page stays a coach."""
    return staff_actor(user) or phone_actor(phone_token) or ANONYMOUS


def sees_diagnosis(actor: Actor) -> bool:
    return actor.kind in HEALTH


def sees_emergency(actor: Actor) -> bool:
    """Emergency contact, alert (asthma, allergy), guardians with their phone, consent: the floor and the clinician."""
    return actor.kind in EMERGENCY


def sees_guardian_email(actor: Actor) -> bool:
    """A phone is enough on the floor."""
    return actor.kind in HEALTH


def sees_private_note(actor: Actor) -> bool:
    """The coach's note on an athlete: not the athlete, nor those who only read availability."""
    return actor.kind in STAFF - {ActorKind.HEAD_COACH, ActorKind.ASSISTANT}
