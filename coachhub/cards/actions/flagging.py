"""Finds sets that were done although something stands against them."""

from __future__ import annotations

from collections.abc import Collection

from django.db.models import Exists, OuterRef

from coachhub.base.clock import today
from coachhub.cards.queries.athlete_facts import pains_of, restrictions_of
from coachhub.cards.queries.session_facts import exercise_facts
from coachhub.coaching.facts import AthleteFacts
from coachhub.coaching.obstacles import health_obstacles
from coachhub.people.models import Athlete, PainReport, RedFlag, Restriction


def flagged_exercises(athlete_id: int, exercise_ids: Collection[int]) -> frozenset[int]:
    """Return those of the exercises that the athlete must not do now; all of them while a red flag stands."""
    standing = (
        RedFlag.objects.filter(athlete=OuterRef("pk"), cleared_at=None),
        Restriction.objects.standing().filter(athlete=OuterRef("pk")),
        PainReport.objects.filter(athlete=OuterRef("pk"), cleared_at=None),
    )
    athlete = Athlete.objects.filter(pk=athlete_id)
    stopped, restricted, hurts = athlete.values_list(*(Exists(rows) for rows in standing)).get()
    if stopped:
        return frozenset(exercise_ids)
    if not restricted and not hurts:
        return frozenset()
    facts = health_facts(Athlete.objects.get(pk=athlete_id))
    return frozenset(pk for pk, exercise in exercise_facts(exercise_ids).items() if health_obstacles(exercise, facts))


def health_facts(athlete: Athlete) -> AthleteFacts:
    """Return only what health says of the athlete today: no history, no bests."""
    on_date = today()
    return AthleteFacts(
        id=athlete.pk,
        age=athlete.age_on(on_date),
        is_minor=athlete.is_minor_on(on_date),
        level=athlete.level,
        unit="lb" if athlete.unit == "lb" else "kg",
        is_rir_taught=athlete.is_rir_taught,
        logged_days=0,
        restrictions=tuple(restrictions_of([athlete.pk])[athlete.pk]),
        pains=tuple(pains_of([athlete.pk])[athlete.pk]),
    )
