"""Finds sets that were done although something stands against them."""

from __future__ import annotations

from collections.abc import Collection
from typing import Final

from django.db import connection

from coachhub.base.clock import today
from coachhub.cards.queries.athlete_facts import pains_of, restrictions_of
from coachhub.cards.queries.session_facts import exercise_facts
from coachhub.coaching.facts import AthleteFacts
from coachhub.coaching.obstacles import health_obstacles
from coachhub.people.models import Athlete

_STANDING: Final = """
    SELECT
        EXISTS (SELECT 1 FROM people_redflag WHERE athlete_id = %(athlete)s AND cleared_at IS NULL),
        EXISTS (SELECT 1 FROM people_restriction WHERE athlete_id = %(athlete)s AND lifted_at IS NULL)
        OR EXISTS (SELECT 1 FROM people_painreport WHERE athlete_id = %(athlete)s AND cleared_at IS NULL)
"""


def flagged_exercises(athlete_id: int, exercise_ids: Collection[int]) -> frozenset[int]:
    """Return those of the exercises that the athlete must not do now; all of them while a red flag stands."""
    is_stopped, is_held = standing_against(athlete_id)
    if is_stopped:
        return frozenset(exercise_ids)
    if not is_held:
        return frozenset()
    facts = health_facts(Athlete.objects.get(pk=athlete_id))
    return frozenset(pk for pk, exercise in exercise_facts(exercise_ids).items() if health_obstacles(exercise, facts))


def standing_against(athlete_id: int) -> tuple[bool, bool]:
    """Return whether a red flag stands, and whether a restriction or a pain does.

    Asked at every tap of a squad, so in SQL of its own: putting the same together takes longer than all else there.
    """
    with connection.cursor() as cursor:
        cursor.execute(_STANDING, {"athlete": athlete_id})
        is_stopped, is_held = cursor.fetchone()
    return bool(is_stopped), bool(is_held)


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
        restrictions=tuple(restrictions_of([athlete.pk], on_date)[athlete.pk]),
        pains=tuple(pains_of([athlete.pk])[athlete.pk]),
    )
