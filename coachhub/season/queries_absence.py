"""Who is away, from a day on."""

from __future__ import annotations

from datetime import date

from django.db.models import QuerySet

from coachhub.base.actor import Actor
from coachhub.people.models import Athlete, Squad
from coachhub.season.models import Absence


def absences_from(actor: Actor, day: date, squad: Squad | None = None) -> QuerySet[Absence]:
    """Of athletes whom the actor sees, not over by that day; why, is said by `season.access.sees_reason`."""
    athletes = Athlete.objects.visible_to(actor).live()
    if squad is not None:
        athletes = athletes.in_squads(frozenset([squad.pk]), day)
    return Absence.objects.filter(athlete__in=athletes, to_on__gte=day).select_related("athlete")
