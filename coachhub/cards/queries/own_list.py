"""What stands against items of own activation work today, and which coming cards have been left behind."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from django.db.models import Count, Q, QuerySet

from coachhub.base.actor import Actor
from coachhub.cards.models import Assignment
from coachhub.cards.queries.athlete_facts import facts_of, pains_of, restrictions_of
from coachhub.cards.queries.session_facts import exercise_facts
from coachhub.coaching.facts import Note
from coachhub.coaching.obstacles import health_obstacles
from coachhub.people.models import Athlete

Held = dict[int, list[tuple[Athlete, tuple[Note, ...]]]]


def held_by_health(athletes: Sequence[Athlete], exercise_ids: Sequence[int], day: date) -> Held:
    """Per exercise, whose restrictions and pain stand against it today, and which."""
    ids = [athlete.pk for athlete in athletes]
    if not ids or not exercise_ids:
        return {}
    restrictions, pains = restrictions_of(ids, day), pains_of(ids)
    if not restrictions and not pains:
        return {}
    facts = exercise_facts(exercise_ids)
    found: Held = {pk: [] for pk in facts}
    for athlete in athletes:
        own = facts_of(
            athlete,
            day,
            logged_days=0,
            restrictions=tuple(restrictions[athlete.pk]),
            pains=tuple(pains[athlete.pk]),
        )
        for pk, exercise in facts.items():
            if against := health_obstacles(exercise, own):
                found[pk].append((athlete, against))
    return found


def left_behind(actor: Actor, day: date, whose: Q) -> QuerySet[Assignment]:
    """Coming assignments with `behind`: the cards not begun that what is the athlete's own has left behind.

    `whose`: a condition on the athlete.
    """
    cards = Q(cards__is_behind=True, cards__started_at=None)
    mine = Q(cards__athlete__in=Athlete.objects.visible_to(actor).filter(whose))
    return (
        Assignment.objects.visible_to(actor)
        .live()
        .filter(cards & mine, on_date__gte=day)
        .select_related("session", "squad")
        .annotate(behind=Count("cards", distinct=True))
        .order_by("on_date", "pk")
    )
