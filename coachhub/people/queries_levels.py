"""The level per family and the stage on the way back that count for athletes on a day."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from coachhub.people.models import AthleteLevel, ReturnStage


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
