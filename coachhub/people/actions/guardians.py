"""Who looks after an athlete and how to reach them; brothers and sisters share one row."""

from __future__ import annotations

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.people.actions.once import save_once
from coachhub.people.audit import record
from coachhub.people.models import Athlete, Guardian, Guardianship


@transaction.atomic
def add_guardian(
    *, actor: Actor, athlete: Athlete, name: str, phone: str = "", email: str = "", relation: str = ""
) -> Guardianship:
    """Someone the club has not noted yet."""
    guardian = Guardian(name=name.strip(), phone=phone.strip(), email=email.strip())
    guardian.full_clean()
    guardian.save()
    record(actor, "added", guardian)
    return share_guardian(actor=actor, athlete=athlete, guardian=guardian, relation=relation)


@transaction.atomic
def share_guardian(*, actor: Actor, athlete: Athlete, guardian: Guardian, relation: str = "") -> Guardianship:
    """Someone noted already looks after this athlete too; ValidationError if that is known."""
    if athlete.guardianships.filter(guardian=guardian).exists():
        raise ValidationError(_("%(name)s is noted already.") % {"name": guardian}, code="twice")
    link = Guardianship(guardian=guardian, athlete=athlete, relation=relation.strip())
    link.full_clean()
    save_once(row=link, told=_("%(name)s is noted already.") % {"name": guardian})
    record(actor, "added", link)
    return link


@transaction.atomic
def edit_guardian(*, actor: Actor, link: Guardianship, name: str, phone: str, email: str, relation: str) -> None:
    """Name, phone and e-mail change for every child of theirs; the relation for this athlete alone."""
    guardian = link.guardian
    guardian.name, guardian.phone, guardian.email = name.strip(), phone.strip(), email.strip()
    guardian.full_clean()
    guardian.save()
    link.relation = relation.strip()
    link.save()
    record(actor, "edited", guardian)


@transaction.atomic
def remove_guardian(*, actor: Actor, link: Guardianship) -> None:
    """From this athlete alone. Somebody who looks after nobody any more is not kept: there is no reason to."""
    guardian = link.guardian
    record(actor, "removed", link)
    link.delete()
    if not guardian.guardianships.exists():
        record(actor, "deleted", guardian)
        guardian.delete()
