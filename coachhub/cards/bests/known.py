"""Athletes, exercises and bests that rows can be about: loaded once for all rows, in the same number of queries."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from datetime import date

from coachhub.base.actor import Actor
from coachhub.base.text import fold
from coachhub.cards.models import KnownBest
from coachhub.library.models import Exercise, ExerciseAlias, LoadMeaning
from coachhub.people.models import Athlete, AthleteQuerySet

SlotKey = tuple[int, int, date, int]


@dataclass(frozen=True)
class Known:
    """`exercises`: by folded name or other name. `bests`: by athlete, exercise, day and reps."""

    athletes: dict[int, Athlete]
    by_name: dict[str, list[Athlete]]
    exercises: dict[str, list[Exercise]]
    best_by_pk: dict[int, KnownBest]
    bests: dict[SlotKey, list[KnownBest]]


def plain_name(text: str) -> str:
    """ "Moss, Ingrid" and "Moss Ingrid" are the same."""
    return fold(text.replace(",", " "))


def load_known(actor: Actor) -> Known:
    athletes = {row.pk: row for row in Athlete.objects.visible_to(actor).live()}
    by_name: dict[str, list[Athlete]] = defaultdict(list)
    for row in athletes.values():
        names = {plain_name(row.name), plain_name(f"{row.family_name} {row.given_name}")}
        for name in names:
            by_name[name].append(row)
    bests = {row.pk: row for row in bests_of(Athlete.objects.visible_to(actor).live())}
    slots: dict[SlotKey, list[KnownBest]] = defaultdict(list)
    for best in bests.values():
        slots[best.athlete_id, best.exercise_id, best.on_date, best.reps].append(best)
    return Known(athletes, dict(by_name), exercises_by_name(), bests, dict(slots))


def bests_of(athletes: AthleteQuerySet) -> list[KnownBest]:
    """By athlete, then exercise, oldest first."""
    rows = KnownBest.objects.filter(athlete__in=athletes)
    rows = rows.select_related("athlete", "exercise")
    return list(rows.order_by("athlete__search_key", "athlete", "exercise__search_key", "on_date", "pk"))


def exercises_by_name() -> dict[str, list[Exercise]]:
    """Live ones; a name goes before another exercise's other name. Those without a load are told of, not taken."""
    named: dict[str, list[Exercise]] = defaultdict(list)
    other: dict[str, list[Exercise]] = defaultdict(list)
    live = {row.pk: row for row in Exercise.objects.live()}
    for row in live.values():
        named[fold(row.name)].append(row)
    for name, pk in ExerciseAlias.objects.filter(exercise__in=list(live)).values_list("name", "exercise"):
        if live[pk] not in other[fold(name)]:
            other[fold(name)].append(live[pk])
    return {**other, **named}


def has_load(exercise: Exercise) -> bool:
    return exercise.load_meaning != LoadMeaning.NONE
