"""What was given from a session, and how much of it the session has since left behind."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection
from datetime import date

from django.db.models import Count, F, Q, QuerySet

from coachhub.base.actor import Actor
from coachhub.cards.models import Assignment, Card
from coachhub.library.models import Venue
from coachhub.plans.models import Session


def given_from(actor: Actor, session: Session) -> QuerySet[Assignment]:
    """Assignments of the session, newest first, with `card_count` and `stale_count` of the cards the actor sees."""
    seen = Q(cards__in=Card.objects.visible_to(actor))
    older = Q(cards__started_at=None, cards__session_revision__lt=F("session__revision"))
    return (
        Assignment.objects.visible_to(actor)
        .live()
        .filter(session=session)
        .select_related("squad")
        .annotate(card_count=Count("cards", filter=seen), stale_count=Count("cards", filter=seen & older))
        .order_by("-on_date", "-pk")
    )


def others_that_day(
    session: Session, on_date: date, venue: Venue, athlete_ids: Collection[int]
) -> dict[int, tuple[str, ...]]:
    """Return, per athlete, the sessions of other live cards of that day: of another session or at another venue."""
    same = Q(assignment__session=session, assignment__venue=venue)
    rows = Card.objects.filter(athlete__in=athlete_ids, assignment__on_date=on_date, assignment__cancelled_at=None)
    found: defaultdict[int, tuple[str, ...]] = defaultdict(tuple)
    for athlete_id, name in rows.exclude(same).order_by("pk").values_list("athlete", "assignment__session__name"):
        found[athlete_id] += (name,)
    return found
