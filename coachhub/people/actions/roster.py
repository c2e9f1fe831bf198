"""Squads, who is in them from when to when, and what is known of each athlete."""

from __future__ import annotations

from datetime import date
from typing import TypedDict, Unpack

from django.core.exceptions import ValidationError
from django.db import transaction
from django.db.models import Q
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.base.clock import now, today
from coachhub.people.audit import author, record
from coachhub.people.models import Athlete, Availability, AvailabilityStatus, Club, Membership, Squad
from coachhub.people.queries import same_person


class AthleteValues(TypedDict, total=False):
    """What is written down of an athlete; what is left out stays as it is."""

    given_name: str
    family_name: str
    born_on: date
    unit: str
    level: str
    is_rir_taught: bool
    position: str
    dominant_side: str
    note: str
    emergency_contact: str
    health_alert: str


@transaction.atomic
def add_squad(*, actor: Actor, name: str, note: str = "", is_paper_only: bool = False) -> Squad:
    squad = Squad(name=name.strip(), note=note, is_paper_only=is_paper_only)
    squad.full_clean()
    squad.save()
    record(actor, "added", squad)
    return squad


@transaction.atomic
def edit_squad(*, actor: Actor, squad: Squad, name: str, note: str, is_paper_only: bool = False) -> Squad:
    """Phones that are bound stay bound, and what they send is taken: paper only means that no more are offered."""
    squad.name, squad.note, squad.is_paper_only = name.strip(), note, is_paper_only
    squad.full_clean()
    squad.save()
    record(actor, "edited", squad)
    return squad


@transaction.atomic
def add_athlete(*, actor: Actor, squad: Squad | None, **values: Unpack[AthleteValues]) -> Athlete:
    """With a squad, a member from today on.

    ValidationError "twice" where somebody with this name and date of birth is in the club. One at a time, because two
    at once would both find nobody.
    """
    list(Club.objects.select_for_update())
    athlete = Athlete(**values)
    athlete.full_clean()
    twin = same_person(athlete.given_name, athlete.family_name, athlete.born_on)
    if twin is not None and twin.archived_at is None:
        raise ValidationError(_("Somebody with this name and date of birth is in the club already."), code="twice")
    athlete.save()
    record(actor, "added", athlete)
    if squad is not None:
        join_squad(actor=actor, athlete=athlete, squad=squad, started_on=today())
    return athlete


@transaction.atomic
def edit_athlete(*, actor: Actor, athlete: Athlete, **values: Unpack[AthleteValues]) -> Athlete:
    for name, value in values.items():
        setattr(athlete, name, value)
    athlete.full_clean()
    athlete.save()
    record(actor, "edited", athlete)
    return athlete


@transaction.atomic
def archive_athlete(*, actor: Actor, athlete: Athlete) -> None:
    """Leaves every squad today; phones and codes stop working; what was trained stays."""
    athlete.archived_at = now()
    athlete.save()
    athlete.memberships.filter(ended_on=None, started_on__gt=today()).delete()
    athlete.memberships.filter(ended_on=None).update(ended_on=today())
    athlete.devices.filter(revoked_at=None).update(revoked_at=now())
    athlete.enrolment_codes.filter(used_at=None, revoked_at=None).update(revoked_at=now())
    record(actor, "archived", athlete)


@transaction.atomic
def bring_back_athlete(*, actor: Actor, athlete: Athlete) -> None:
    """In the club again, in no squad and with no phone; a second time it changes nothing."""
    if athlete.archived_at is None:
        return
    athlete.archived_at = None
    athlete.save()
    record(actor, "brought back", athlete)


@transaction.atomic
def join_squad(*, actor: Actor, athlete: Athlete, squad: Squad, started_on: date) -> Membership:
    """ValidationError where a membership of the same squad already covers that day or a later one."""
    covered = Q(ended_on=None) | Q(ended_on__gte=started_on)
    if athlete.memberships.filter(covered, squad=squad).exists():
        raise ValidationError(
            _("%(athlete)s is in this squad on that day already.") % {"athlete": athlete}, code="member"
        )
    membership = Membership(athlete=athlete, squad=squad, started_on=started_on)
    membership.full_clean()
    membership.save()
    record(actor, "began", membership)
    return membership


@transaction.atomic
def leave_squad(*, actor: Actor, membership: Membership, ended_on: date) -> Membership:
    """`ended_on` is the last day in the squad."""
    if ended_on < membership.started_on:
        raise ValidationError({"ended_on": _("The last day cannot be before the first.")})
    membership.ended_on = ended_on
    membership.save()
    record(actor, "ended", membership)
    return membership


@transaction.atomic
def set_availability(
    *, actor: Actor, athlete: Athlete, status: AvailabilityStatus, from_on: date, can_do: str = ""
) -> Availability:
    """A new row from a day on; earlier rows stay as history."""
    row = Availability(
        athlete=athlete, status=status, from_on=from_on, can_do=can_do, set_by_id=author(actor), set_at=now()
    )
    row.full_clean()
    row.save()
    record(actor, "set", row)
    return row
