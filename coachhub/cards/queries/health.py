"""One athlete's health as it is recorded: what is in force, what was lifted or cleared."""

from __future__ import annotations

from collections.abc import Collection

from django.db.models import Prefetch, QuerySet

from coachhub.base.actor import Actor
from coachhub.cards.models import KnownBest
from coachhub.people.models import Athlete, PainReport, RedFlag, Restriction, RestrictionException


def restrictions_to_read(actor: Actor) -> QuerySet[Restriction]:
    """Restrictions of athletes that the actor sees, with their exceptions."""
    exceptions = RestrictionException.objects.select_related("exercise").order_by("pk")
    mine = Athlete.objects.visible_to(actor)
    rows = Restriction.objects.filter(athlete__in=mine).select_related("athlete", "exercise", "set_by__staff")
    return rows.prefetch_related(Prefetch("exceptions", exceptions)).order_by("-starts_on", "-pk")


def can_do_instead(athlete_ids: Collection[int]) -> list[str]:
    """What restrictions in force leave to do: words for the athlete and for everyone on the floor."""
    rows = Restriction.objects.standing().filter(athlete__in=athlete_ids).exclude(can_do="").order_by("pk")
    return list(dict.fromkeys(rows.values_list("can_do", flat=True)))


def pains_to_read(actor: Actor) -> QuerySet[PainReport]:
    return PainReport.objects.filter(athlete__in=Athlete.objects.visible_to(actor)).select_related("athlete")


def flags_to_read(actor: Actor) -> QuerySet[RedFlag]:
    return RedFlag.objects.filter(athlete__in=Athlete.objects.visible_to(actor)).select_related("athlete")


def bests_of(athlete: Athlete) -> QuerySet[KnownBest]:
    """By exercise, the newest first: that one counts."""
    rows = KnownBest.objects.filter(athlete=athlete).select_related("exercise", "noted_by__staff")
    return rows.order_by("exercise__search_key", "exercise", "-on_date", "-pk")
