"""Who of a squad is away, now and to come. Why, is shown to those alone who read health."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final
from urllib.parse import urlencode

from django.http import Http404
from django.urls import reverse
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.cards.queries.missed import Missed, missed_in
from coachhub.people.models import Athlete, AthleteQuerySet, Squad
from coachhub.season.access import sees_reason
from coachhub.season.models import Absence
from coachhub.season.queries_absence import absences_from

_AROUND: Final = timedelta(days=14)


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
class MissedLine:
    """`again_url` leads to giving the same session on another day; empty for who may not."""

    missed: Missed
    again_url: str

    @classmethod
    def of(cls, missed: Missed, *, may_write: bool) -> MissedLine:
        query = urlencode({"session": missed.session_id, "athlete": missed.athlete_id, "week": missed.week})
        return cls(missed, f"{reverse('desk:assign')}?{query}" if may_write and missed.again_on is None else "")


@dataclass(frozen=True, slots=True)
class AbsencesPage:
    """`missed`: sessions of the last and the coming two weeks, for whoever reads cards."""

    squad: Squad
    lines: list[AbsenceLine]
    missed: list[MissedLine]
    may_write: bool

    @classmethod
    def of(cls, actor: Actor, squad: Squad) -> AbsencesPage:
        rows = absences_from(actor, today(), squad).order_by("from_on", "athlete__search_key", "pk")
        missed = missed_in(actor, squad.pk, today() - _AROUND, today() + _AROUND)
        return cls(
            squad,
            [AbsenceLine.of(row, actor) for row in rows],
            [MissedLine.of(one, may_write=actor.may_write) for one in missed],
            actor.may_write,
        )


def members(actor: Actor, squad: Squad) -> AthleteQuerySet:
    return Athlete.objects.visible_to(actor).members_of(squad.pk, today())


def find_absence(actor: Actor, pk: int) -> Absence:
    """404 as well for one that is over: there is nothing to end."""
    row = absences_from(actor, today()).filter(pk=pk).first()
    if row is None:
        raise Http404
    return row
