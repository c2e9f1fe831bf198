"""Whose own activation work is in force on a day, what stands on a list, and what is to be looked at again."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from datetime import date

from django.db.models import Prefetch, Q, QuerySet

from coachhub.base.actor import Actor
from coachhub.people.models import Athlete, Membership, Squad
from coachhub.plans.models import OwnItem, OwnSet, OwnSetItem


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
    items = [row for row in rows if row.is_on(on)]
    return {one.pk: _once(row for row in items if _is_for(row, one, squads[one.pk])) for one in athletes}


def _is_for(row: OwnItem, athlete: Athlete, squads: set[int]) -> bool:
    if row.athlete_id is not None:
        return row.athlete_id == athlete.pk
    return plays(row, athlete) and (row.squad_id is None or row.squad_id in squads)


def plays(row: OwnItem, athlete: Athlete) -> bool:
    """Whether the athlete plays the position that the item is for, where it is for one."""
    return row.player_position.casefold() in ("", athlete.position.strip().casefold())


def _once(rows: Iterable[OwnItem]) -> tuple[OwnItem, ...]:
    """What was given to the athlete alone goes before what a squad or position has; each exercise once."""
    found: dict[int, OwnItem] = {}
    for row in sorted(rows, key=lambda one: (one.athlete_id is None, one.position, one.pk)):
        found.setdefault(row.exercise_id, row)
    return tuple(found.values())


def listed_for(athlete: Athlete, squad_ids: Iterable[int]) -> list[OwnItem]:
    """All that stands for the athlete who is in those squads, whatever the day: their own first, each by importance."""
    squads = set(squad_ids)
    for_them = Q(athlete=athlete) | Q(squad__in=squads) | Q(athlete=None, squad=None)
    rows = _with_names(OwnItem.objects.standing().filter(for_them))
    mine = [row for row in rows if _is_for(row, athlete, squads)]
    return sorted(mine, key=lambda one: (one.athlete_id is None, one.position, one.pk))


def listed_for_squad(squad: Squad) -> list[OwnItem]:
    """What stands for the squad and for positions in it, the most important first."""
    return list(_with_names(OwnItem.objects.standing().filter(squad=squad, athlete=None)))


def own_reviews_due(actor: Actor, day: date) -> QuerySet[OwnItem]:
    """In force, and their day to be looked at again has come: a question, never an end."""
    rows = OwnItem.objects.visible_to(actor).standing().filter(review_on__lte=day)
    return _with_names(rows.exclude(athlete__archived_at__isnull=False)).order_by("review_on", "pk")


def sets_in_use() -> QuerySet[OwnSet]:
    items = Prefetch("items", OwnSetItem.objects.select_related("exercise"))
    return OwnSet.objects.filter(archived_at=None).prefetch_related(items)


def items_on_list(athlete: Athlete | None, squad: Squad | None) -> QuerySet[OwnItem]:
    """Of the one list, the most important first."""
    return OwnItem.objects.standing().filter(athlete=athlete, squad=squad)


def _with_names(rows: QuerySet[OwnItem]) -> QuerySet[OwnItem]:
    return rows.select_related("exercise", "athlete", "squad", "added_by__staff")


def positions_in(squad: Squad, day: date) -> list[str]:
    """Every position that is played in the squad, each once."""
    members = Membership.objects.filter(squad=squad, athlete__archived_at=None).on(day)
    names = members.exclude(athlete__position="").order_by("athlete__position").values_list("athlete__position")
    return list({name.strip().casefold(): name.strip() for (name,) in names if name.strip()}.values())
