"""What was given from a session, and how much of it the session has since left behind."""

from __future__ import annotations

from django.db.models import Count, F, Q, QuerySet

from coachhub.base.actor import Actor
from coachhub.cards.models import Assignment, Card
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
