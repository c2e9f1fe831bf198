"""How a phone is bound to an athlete: a code used once, then a token that only the phone holds."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils.translation import gettext as _

from coachhub.base.actor import ANONYMOUS, Actor
from coachhub.base.clock import now, today
from coachhub.people.access import code_hash, new_code, new_token, token_hash
from coachhub.people.audit import author, record
from coachhub.people.models import Athlete, Device, EnrolmentCode
from coachhub.people.queries_care import is_on_paper_only, squads_on


@dataclass(frozen=True, slots=True)
class NewCode:
    """The one time that code and link are known in clear."""

    athlete: Athlete
    code: str
    token: str
    expires_at: datetime


@dataclass(frozen=True, slots=True)
class NewDevice:
    device: Device
    token: str


@transaction.atomic
def make_enrolment_code(*, actor: Actor, athlete: Athlete, lifetime: timedelta) -> NewCode:
    """A new code replaces one that still waits, so that a lost slip is worth nothing.

    ValidationError "paper" for an athlete whose squads are all on paper only.
    """
    if is_on_paper_only(squads_on(athlete, today())):
        raise ValidationError(_("This athlete's squad is on paper only: no codes for phones."), "paper")
    athlete.enrolment_codes.filter(used_at=None, revoked_at=None).update(revoked_at=now())
    made = NewCode(athlete, new_code(), new_token(), now() + lifetime)
    EnrolmentCode(
        athlete=athlete,
        code_hash=code_hash(made.code),
        token_hash=token_hash(made.token),
        created_by_id=author(actor),
        created_at=now(),
        expires_at=made.expires_at,
    ).save()
    record(actor, "made a code for", athlete)
    return made


@transaction.atomic
def make_enrolment_codes(*, actor: Actor, athletes: Iterable[Athlete], lifetime: timedelta) -> list[NewCode]:
    """A slip for each."""
    return [make_enrolment_code(actor=actor, athlete=athlete, lifetime=lifetime) for athlete in athletes]


@transaction.atomic
def revoke_code(*, actor: Actor, athlete: Athlete) -> None:
    athlete.enrolment_codes.filter(used_at=None, revoked_at=None).update(revoked_at=now())
    record(actor, "revoked waiting codes of", athlete)


@transaction.atomic
def enrol_device(
    *, code: str = "", token: str = "", born_on: date | None = None, label: str = "", replaces: int | None = None
) -> NewDevice:
    """Bind a phone by the typed code or by the link's token; ValidationError if it is wrong, used, revoked or expired.

    `born_on`: where given, it must be the athlete's. `replaces`: the device this phone was until now.
    """
    live = EnrolmentCode.objects.live_at(now())
    rows = live.filter(token_hash=token_hash(token)) if token else live.filter(code_hash=code_hash(code))
    row = (rows if born_on is None else rows.filter(athlete__born_on=born_on)).select_related("athlete").first()
    # The update, not the look before it, decides who of two that try at once gets in. It names this one table only:
    # after waiting for the other's commit PostgreSQL asks such conditions again, but not those in a subquery.
    unused = EnrolmentCode.objects.filter(used_at=None, revoked_at=None)
    if row is None or unused.filter(pk=row.pk).update(used_at=now()) != 1:
        raise ValidationError(_("This code is not right, or no longer good. Ask your coach for a new one."), "refused")
    if replaces is not None:
        Device.objects.filter(pk=replaces, revoked_at=None).update(revoked_at=now())
    made = NewDevice(Device(athlete=row.athlete, enrolment=row, label=label, bound_at=now()), new_token())
    made.device.token_hash = token_hash(made.token)
    made.device.save()
    record(ANONYMOUS, "bound", made.device)
    return made


@transaction.atomic
def revoke_device(*, actor: Actor, device: Device) -> None:
    Device.objects.filter(pk=device.pk, revoked_at=None).update(revoked_at=now())
    record(actor, "revoked", device)


@transaction.atomic
def note_phone_seen(*, actor: Actor) -> None:
    """Once a day is enough, and keeps a busy page from writing."""
    if actor.device_id is not None:
        Device.objects.filter(pk=actor.device_id).exclude(last_seen_on=today()).update(last_seen_on=today())
