"""What an athlete's page shows, field by field as the actor's role allows."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.shortcuts import get_object_or_404
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from coachhub.base.actor import READERS, Actor
from coachhub.base.clock import today
from coachhub.desk.pages.guardians import CarePart, Reach
from coachhub.desk.pages.squads import State, age_words
from coachhub.people import queries
from coachhub.people.access import sees_emergency, sees_private_note
from coachhub.people.models import Athlete, Membership
from coachhub.people.queries_care import is_on_paper_only

Fact = tuple[str, str]


@dataclass(frozen=True, slots=True)
class AthletePage:
    """What a role may not read is left out here, not in the template; `athlete` is for links and for other parts."""

    athlete: Athlete
    name: str
    age: str
    state: State
    can_do: str
    facts: list[Fact]
    alert: str
    emergency: Reach | None
    care: CarePart | None
    note: str
    memberships: list[Membership]
    is_paper_only: bool
    may_write: bool
    may_archive: bool
    may_set_availability: bool
    shows_training: bool

    @classmethod
    def of(cls, actor: Actor, pk: int) -> AthletePage:
        row: Any = get_object_or_404(queries.athlete_in_full(actor, today()), pk=pk)
        shows_training, in_emergency = actor.kind in READERS, sees_emergency(actor)
        memberships = list(queries.memberships_of(actor, row))
        squads = [m.squad for m in memberships if m.is_on(today())]
        return cls(
            athlete=row,
            name=row.name,
            age=age_words(row, today()) if shows_training else "",
            state=State.of(row.status),
            can_do=row.can_do,
            facts=facts_of(row, shows_training=shows_training),
            alert=row.health_alert if in_emergency else "",
            emergency=Reach.of(row.emergency_contact) if in_emergency else None,
            care=CarePart.of(actor, row, squads),
            note=row.note if sees_private_note(actor) else "",
            memberships=memberships,
            is_paper_only=is_on_paper_only(squads),
            may_write=actor.may_write,
            may_archive=actor.sees_all,
            may_set_availability=actor.sees_health,
            shows_training=shows_training,
        )


def facts_of(athlete: Athlete, *, shows_training: bool) -> list[Fact]:
    facts = [(_("Position"), athlete.position)]
    if shows_training:
        taught = _("taught") if athlete.is_rir_taught else _("not taught yet")
        facts += [
            (_("Born"), date_format(athlete.born_on, "j F Y")),
            (_("Level"), athlete.get_level_display()),
            (_("Reps in reserve"), taught),
            (_("Reads loads in"), athlete.get_unit_display()),
            (_("Dominant side"), athlete.get_dominant_side_display() if athlete.dominant_side else ""),
        ]
    return [(label, str(value)) for label, value in facts if value]


def find_athlete(actor: Actor, pk: int) -> Athlete:
    """404 for an athlete that this actor does not see, or who has left."""
    return get_object_or_404(Athlete.objects.visible_to(actor).live(), pk=pk)
