"""What waits for somebody's word, and whose: restrictions to look at again, exceptions that are over."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection
from datetime import date, timedelta
from typing import Final

from django.db.models import Q, QuerySet

from coachhub.base.actor import Actor
from coachhub.people.models import Athlete, Membership, Restriction, RestrictionException, StaffRole

# A week ahead there is still time to ask.
NEAR_DAYS: Final = 7
# An exception that is over asks for four weeks whether it is wanted again; the restriction holds meanwhile.
OVER_DAYS: Final = 28


def restrictions_waiting(actor: Actor, day: date) -> QuerySet[Restriction]:
    """In force, and a clinician's hold, or due within a week, or without a day to look at them again."""
    mine = Athlete.objects.visible_to(actor).live()
    asks = Q(is_clinical=True) | Q(review_on=None) | Q(review_on__lte=day + timedelta(days=NEAR_DAYS))
    rows = Restriction.objects.standing().filter(asks, athlete__in=mine)
    return rows.select_related("athlete", "exercise").order_by("pk")


def exceptions_over(actor: Actor, day: date) -> QuerySet[RestrictionException]:
    """Their last day has passed, and the restriction still stands."""
    mine = Athlete.objects.visible_to(actor).live()
    rows = RestrictionException.objects.filter(restriction__lifted_at=None, restriction__athlete__in=mine)
    since = day - timedelta(days=OVER_DAYS)
    return rows.filter(until_on__lt=day, until_on__gte=since).select_related("restriction__athlete", "exercise")


def coaches_of(athlete_ids: Collection[int], day: date) -> dict[int, list[str]]:
    """The names of each athlete's coaches on that day, in their order."""
    rows = Membership.objects.on(day).filter(
        athlete__in=athlete_ids, squad__staff__role=StaffRole.COACH, squad__staff__archived_at=None
    )
    found: defaultdict[int, list[str]] = defaultdict(list)
    pairs = rows.order_by("squad__staff__name").values_list("athlete", "squad__staff__name").distinct()
    for athlete_id, name in pairs:
        found[athlete_id].append(name)
    return found
