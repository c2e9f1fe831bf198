"""Who works for the club, and with which squads."""

from __future__ import annotations

from collections.abc import Iterable

from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.base.clock import now
from coachhub.people.audit import record
from coachhub.people.models import Squad, Staff, StaffRole, StaffSquad, User


@transaction.atomic
def add_staff_account(*, name: str, role: StaffRole, username: str, email: str, password: str) -> Staff:
    """A login and its row of staff; ValidationError for a name taken, a bad address or a weak password."""
    user = User(username=username.strip(), email=User.objects.normalize_email(email.strip()))
    put_password(user, password)
    user.full_clean()
    user.save()
    staff = Staff(user=user, name=name.strip(), role=role)
    staff.full_clean()
    staff.save()
    return staff


@transaction.atomic
def add_staff(
    *, actor: Actor, name: str, role: StaffRole, username: str, email: str, password: str, squads: Iterable[Squad]
) -> Staff:
    """`add_staff_account`, with the squads they work with."""
    staff = add_staff_account(name=name, role=role, username=username, email=email, password=password)
    put_squads(staff, squads)
    record(actor, "added", staff)
    return staff


@transaction.atomic
def edit_staff(*, actor: Actor, staff: Staff, name: str, role: StaffRole, email: str, squads: Iterable[Squad]) -> Staff:
    """ValidationError if the club would be left without an owner, or the address is someone else's."""
    if role != StaffRole.OWNER:
        refuse_without_owner(staff)
    staff.user.email = User.objects.normalize_email(email.strip())
    staff.user.full_clean(exclude=["password"])
    staff.user.save()
    staff.name, staff.role = name.strip(), role
    staff.full_clean()
    staff.save()
    put_squads(staff, squads)
    record(actor, f"edited as {role}", staff)
    return staff


@transaction.atomic
def set_password(*, actor: Actor, staff: Staff, password: str) -> None:
    """A new password ends every session of theirs; ValidationError for a weak one."""
    put_password(staff.user, password)
    staff.user.save()
    record(actor, "set the password of", staff)


@transaction.atomic
def archive_staff(*, actor: Actor, staff: Staff) -> None:
    """They can no longer log in, open sessions end; what they wrote keeps their name."""
    refuse_without_owner(staff)
    staff.archived_at = now()
    staff.save()
    staff.user.is_active = False
    staff.user.save()
    record(actor, "archived", staff)


def refuse_without_owner(staff: Staff) -> None:
    """The rows of owners are held until the end, so that two of them cannot let go of each other at once."""
    owners = list(Staff.objects.select_for_update().filter(role=StaffRole.OWNER, archived_at=None))
    if owners == [staff]:
        raise ValidationError(_("The club needs an owner: make someone else owner first."), code="last_owner")


def put_password(user: User, password: str) -> None:
    try:
        validate_password(password, user)
    except ValidationError as error:
        raise ValidationError({"password": error.messages}) from error
    user.set_password(password)


def put_squads(staff: Staff, squads: Iterable[Squad]) -> None:
    staff.staff_squads.all().delete()
    StaffSquad.objects.bulk_create([StaffSquad(staff=staff, squad=squad) for squad in squads])
