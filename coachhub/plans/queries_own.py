"""Whose own activation work is in force on a day."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from datetime import date

from django.db.models import Q

from coachhub.people.models import Athlete, Membership
from coachhub.plans.models import OwnItem


def own_items_on(athletes: Sequence[Athlete], on: date) -> dict[int, tuple[OwnItem, ...]]:
    """Return each athlete's items of that day: their own first, then by importance; an exercise once. Two queries."""
    squads: defaultdict[int, set[int]] = defaultdict(set)
    members = Membership.objects.filter(athlete__in=athletes).on(on)
    for athlete_id, squad_id in members.values_list("athlete", "squad"):
        squads[athlete_id].add(squad_id)
    every_squad = {squad for own in squads.values() for squad in own}
    rows = OwnItem.objects.standing().filter(
        Q(athlete__in=athletes) | Q(squad__in=every_squad) | Q(athlete=None, squad=None), from_on__lte=on
    )
    items = [row for row in rows if not row.weekdays or on.weekday() in row.weekdays]
    return {one.pk: _once(row for row in items if _is_for(row, one, squads[one.pk])) for one in athletes}


def _is_for(row: OwnItem, athlete: Athlete, squads: set[int]) -> bool:
    if row.athlete_id is not None:
        return row.athlete_id == athlete.pk
    plays = row.player_position.casefold() in ("", athlete.position.strip().casefold())
    return plays and (row.squad_id is None or row.squad_id in squads)


def _once(rows: Iterable[OwnItem]) -> tuple[OwnItem, ...]:
    """What was given to the athlete alone goes before what a squad or position has; each exercise once."""
    found: dict[int, OwnItem] = {}
    for row in sorted(rows, key=lambda one: (one.athlete_id is None, one.position, one.pk)):
        found.setdefault(row.exercise_id, row)
    return tuple(found.values())
