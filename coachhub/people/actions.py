"""Verbs on the club and its people."""

from __future__ import annotations

from zoneinfo import available_timezones

from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils.translation import gettext as _

from coachhub.base.models import MassUnit
from coachhub.people.models import Club, Staff, StaffRole, User


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
def add_staff_account(*, name: str, role: StaffRole, username: str, email: str, password: str) -> Staff:
    """A login and its row of staff; ValidationError for a name taken, a bad address or a weak password."""
    user = User(username=username.strip(), email=User.objects.normalize_email(email.strip()))
    try:
        validate_password(password, user)
    except ValidationError as error:
        raise ValidationError({"password": error.messages}) from error
    user.set_password(password)
    user.full_clean()
    user.save()
    staff = Staff(user=user, name=name.strip(), role=role)
    staff.full_clean()
    staff.save()
    return staff
