"""The level per family and the stage on the way back that count for athletes on a day."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from coachhub.base.actor import Actor
from coachhub.people.models import Athlete, AthleteLevel, ReturnStage


def levels_on(athlete_ids: Iterable[int], on: date) -> dict[int, dict[str, AthleteLevel]]:
    """Return, per athlete and family, the newest level that has begun; withdrawn ones are left out."""
    ids = list(athlete_ids)
    newest: dict[int, dict[str, AthleteLevel]] = {pk: {} for pk in ids}
    rows = AthleteLevel.objects.filter(athlete__in=ids, from_on__lte=on).select_related("exercise")
    for row in rows.order_by("from_on", "pk"):
        newest[row.athlete_id][row.family] = row
    return {pk: {family: row for family, row in sorted(own.items()) if row.exercise_id} for pk, own in newest.items()}


def stages_on(athlete_ids: Iterable[int], on: date) -> dict[int, ReturnStage]:
    """Return the newest stage that has begun of those who are on the way back."""
    rows = ReturnStage.objects.filter(athlete__in=list(athlete_ids), from_on__lte=on).order_by("from_on", "pk")
    newest = {row.athlete_id: row for row in rows}
    return {pk: row for pk, row in newest.items() if row.stage}


def levels_told(athlete: Athlete) -> list[AthleteLevel]:
    """Every level ever set, with who set it; per family, the newest first."""
    rows = athlete.levels.select_related("exercise", "set_by__staff")
    return list(rows.order_by("family", "-from_on", "-pk"))


def levels_in(actor: Actor, family: str, on: date) -> list[AthleteLevel]:
    """Who is where in the family: the newest level of each athlete whom the actor sees, by name."""
    mine = Athlete.objects.visible_to(actor).live()
    rows = AthleteLevel.objects.filter(family=family, athlete__in=mine, from_on__lte=on).select_related("athlete")
    newest = {row.athlete_id: row for row in rows.order_by("from_on", "pk")}
    return sorted((row for row in newest.values() if row.exercise_id), key=lambda row: row.athlete.search_key)


def stage_of(athlete: Athlete, on: date) -> ReturnStage | None:
    """The stage that counts, with who set it; None for who trains in full."""
    row = athlete.return_stages.filter(from_on__lte=on).select_related("set_by__staff").first()
    return row if row and row.stage else None


def stages_told(athlete: Athlete) -> list[ReturnStage]:
    """Every stage ever set, with who set it, the newest first."""
    return list(athlete.return_stages.select_related("set_by__staff"))


def stages_standing(actor: Actor, on: date) -> list[ReturnStage]:
    """Who is on the way back: the stage that counts of each athlete whom the actor sees, with who set it."""
    mine = Athlete.objects.visible_to(actor).live()
    rows = ReturnStage.objects.filter(athlete__in=mine, from_on__lte=on).select_related("athlete", "set_by__staff")
    newest = {row.athlete_id: row for row in rows.order_by("from_on", "pk")}
    return sorted((row for row in newest.values() if row.stage), key=lambda row: row.athlete.search_key)
