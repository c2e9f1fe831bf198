"""What an athlete's page shows, field by field as the actor's role allows."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.utils.formats import date_format
from django.utils.html import format_html
from django.utils.translation import gettext as _

from coachhub.base.actor import READERS, Actor
from coachhub.base.clock import today
from coachhub.desk.pages.guardians import CarePart, Reach
from coachhub.desk.pages.squads import State, age_words
from coachhub.people import queries
from coachhub.people.access import sees_emergency, sees_private_note
from coachhub.people.forms import NewAthleteForm
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

    @property
    def squads(self) -> list[Membership]:
        """Of today."""
        return [membership for membership in self.memberships if membership.is_on(today())]

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
            state=State.on(row, actor),
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


def tell_twin(actor: Actor, form: NewAthleteForm) -> bool:
    """Said beside the name where the club knows this person already; False where it does not."""
    given = form.cleaned_data
    twin = queries.same_person(given["given_name"], given["family_name"], given["born_on"])
    if twin is None:
        return False
    form.add_error("given_name", twin_words(actor, twin))
    return True


def twin_words(actor: Actor, twin: Athlete) -> str:
    """With the way to them; no more than that they exist for whoever may not see them."""
    if not Athlete.objects.visible_to(actor).filter(pk=twin.pk).exists():
        return _("Somebody with this name and date of birth is in the club already; ask the owner.")
    told, where = {"name": twin.name, "day": date_format(twin.born_on, "j F Y")}, {"pk": twin.pk}
    if twin.archived_at is None:
        words, label = _("There is already a %(name)s, born %(day)s."), _("Open their page")
        return _with_link(words % told, reverse("desk:athlete", kwargs=where), label)
    words, label = _("There was a %(name)s, born %(day)s, who has left the club."), _("Bring them back?")
    return _with_link(words % told, reverse("desk:athlete_return", kwargs=where), label)


def _with_link(words: str, url: str, label: str) -> str:
    return format_html('{} <a href="{}">{}</a>', words, url, label)


def find_athlete_who_left(actor: Actor, pk: int) -> Athlete:
    """404 for an athlete that this actor does not see. Whoever is back already is found as well: pressed twice."""
    return get_object_or_404(Athlete.objects.visible_to(actor), pk=pk)


def find_athlete(actor: Actor, pk: int) -> Athlete:
    """404 for an athlete that this actor does not see, or who has left."""
    return get_object_or_404(Athlete.objects.visible_to(actor).live(), pk=pk)
