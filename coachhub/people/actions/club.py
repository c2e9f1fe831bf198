"""The installation's one club."""

from __future__ import annotations

from zoneinfo import available_timezones

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.base.models import MassUnit
from coachhub.people.actions.staff import add_staff_account
from coachhub.people.audit import record
from coachhub.people.models import Club, StaffRole


@transaction.atomic
def set_up_club(
    *, name: str, unit: str, time_zone: str, username: str, email: str, password: str, is_demo: bool = False
) -> Club:
    """Make the installation's one club and its owner's account; ValidationError says which value will not do."""
    if Club.objects.exists():
        raise ValidationError(_("This installation has its club already."), code="exists")
    if unit not in MassUnit.values:
        raise ValidationError({"unit": _("The unit is kg or lb.")})
    if time_zone not in available_timezones():
        raise ValidationError({"time_zone": _("Not a time zone; they look like Europe/London.")})
    club = Club(pk=1, name=name.strip(), unit=unit, time_zone=time_zone, is_demo=is_demo)
    club.full_clean()
    club.save()
    add_staff_account(name=username, role=StaffRole.OWNER, username=username, email=email, password=password)
    return club


@transaction.atomic
def edit_club(*, actor: Actor, club: Club, name: str, unit: str, time_zone: str, accent: str, gap_days: int) -> Club:
    """`actor` is the owner; facts keep the unit they were seen in."""
    club.name, club.unit, club.time_zone, club.accent = name, unit, time_zone, accent
    club.gap_days = gap_days
    club.full_clean()
    club.save()
    record(actor, "edited", club)
    return club
