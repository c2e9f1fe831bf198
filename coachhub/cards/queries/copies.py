"""Printed and offline copies that their cards have left behind."""

from __future__ import annotations

from datetime import date
from typing import Final

from django.db.models import F, OuterRef, Q, QuerySet, Subquery

from coachhub.cards.models import Card, CardCopy, CardRevision, RevisionReason

BY_HEALTH: Final = (RevisionReason.RESTRICTED, RevisionReason.PAIN)


def old_copies(cards: QuerySet[Card], day: date) -> QuerySet[CardCopy]:
    """Copies out of date that nobody has answered for, by day and name; of one card and kind the newest first.

    Where health changed the card since, the old copy is asked for until somebody has seen to it, whatever the day and
    however often the card was printed again. Any other change is answered by a newer copy, or by the day passing.
    """
    newest = CardCopy.objects.filter(card=OuterRef("card")).order_by("-revision_number")
    health = CardRevision.objects.filter(card=OuterRef("card"), reason__in=BY_HEALTH).order_by("-number")
    behind = CardCopy.objects.filter(card__in=cards, answer=None, revision_number__lt=F("card__revision_number"))
    return (
        behind.annotate(
            newest_number=Subquery(newest.values("revision_number")[:1]),
            health_number=Subquery(health.values("number")[:1]),
        )
        .filter(
            Q(revision_number__lt=F("health_number"))
            | Q(revision_number=F("newest_number"), card__assignment__on_date__gte=day)
        )
        .select_related("card__athlete", "card__assignment__session")
        .order_by(
            "card__assignment__on_date", "card__athlete__search_key", "card", "kind", "-revision_number", "-made_at"
        )
    )
