"""What is printed of a session."""

from __future__ import annotations

from django.db.models import TextChoices
from django.utils.translation import gettext_lazy as _

from coachhub.base.actor import Actor


class Kind(TextChoices):
    CARDS = "cards", _("A card for each athlete")
    STAFF = "staff", _("Squad sheet for the staff: everyone’s loads, alerts, emergency contacts")
    WALL = "wall", _("Squad sheet for the wall: nothing of health, no loads of under-18s")
    ROLL = "roll", _("Attendance list")
    ROLL_STAFF = "roll-staff", _("Attendance list for the staff: with guardians’ phones of under-18s")
    GUARDIANS = "guardians", _("Sheet for guardians: one page for each athlete under 18")


# Whoever hangs or holds these has loads in hand that a change of the cards makes old.
HOLDS_LOADS = frozenset((Kind.CARDS, Kind.STAFF, Kind.WALL))


def kinds_for(actor: Actor) -> list[tuple[str, str]]:
    """What guardians are told of a child is the coach's choice."""
    return [(kind.value, str(kind.label)) for kind in Kind if kind is not Kind.GUARDIANS or actor.may_write]
