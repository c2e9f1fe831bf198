"""Who of a squad is away, now and to come. Why, is shown to those alone who read health."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.http import Http404
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.people.models import Athlete, AthleteQuerySet, Squad
from coachhub.season.access import sees_reason
from coachhub.season.models import Absence
from coachhub.season.queries_absence import absences_from


@dataclass(frozen=True, slots=True)
class AbsenceLine:
    pk: int
    name: str
    from_on: date
    to_on: date
    why: str

    @classmethod
    def of(cls, row: Absence, actor: Actor) -> AbsenceLine:
        why = str(row.get_reason_display()) if sees_reason(actor, row.athlete_id) else _("absent")
        return cls(row.pk, row.athlete.name, row.from_on, row.to_on, why)


@dataclass(frozen=True, slots=True)
class AbsencesPage:
    squad: Squad
    lines: list[AbsenceLine]
    may_write: bool

    @classmethod
    def of(cls, actor: Actor, squad: Squad) -> AbsencesPage:
        rows = absences_from(actor, today(), squad).order_by("from_on", "athlete__search_key", "pk")
        return cls(squad, [AbsenceLine.of(row, actor) for row in rows], actor.may_write)


def members(actor: Actor, squad: Squad) -> AthleteQuerySet:
    return Athlete.objects.visible_to(actor).live().in_squads(frozenset([squad.pk]), today())


def find_absence(actor: Actor, pk: int) -> Absence:
    """404 as well for one that is over: there is nothing to end."""
    row = absences_from(actor, today()).filter(pk=pk).first()
    if row is None:
        raise Http404
    return row
