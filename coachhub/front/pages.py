"""What the pages at the door show."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from django.utils.translation import gettext as _

from coachhub.base.actor import Actor, ActorKind
from coachhub.people.models import Club

KINDS_OF_PHONE: Final = ("iPhone", "iPad", "Android", "Windows", "Macintosh", "Linux")


@dataclass(frozen=True, slots=True)
class WelcomePage:
    club_name: str
    is_set_up: bool

    @classmethod
    def of(cls, club: Club) -> WelcomePage:
        return cls(club.name, club.pk is not None)


@dataclass(frozen=True, slots=True)
class EnrolPage:
    """`bound_to`: whose phone this is until now. `given_name`: whose it is to be; empty where that is not known."""

    is_staff: bool
    bound_to: str
    given_name: str = ""

    @classmethod
    def of(cls, actor: Actor, given_name: str = "") -> EnrolPage:
        bound_to = actor.name if actor.kind is ActorKind.ATHLETE else ""
        return cls(actor.is_staff, bound_to, given_name)


def label_of(user_agent: str) -> str:
    """Enough to tell two phones of one athlete apart."""
    return next((kind for kind in KINDS_OF_PHONE if kind in user_agent), _("phone or computer"))
