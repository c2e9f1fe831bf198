"""Cards as a list: what is on today, what comes, what has been."""

from __future__ import annotations

from datetime import date
from typing import Final

from django.db.models import QuerySet

from coachhub.cards.models import Card

MOST_COMING: Final = 20
MOST_PAST: Final = 10


def coming_cards(cards: QuerySet[Card], day: date) -> list[Card]:
    """Return cards of that day and later, the nearest first, with session and venue."""
    rows = cards.filter(assignment__on_date__gte=day).order_by("assignment__on_date", "pk")
    return list(rows.select_related("assignment__session", "assignment__venue", "venue")[:MOST_COMING])


def past_cards(cards: QuerySet[Card], day: date) -> list[Card]:
    """Return the last cards before that day, the latest first."""
    rows = cards.filter(assignment__on_date__lt=day).order_by("-assignment__on_date", "-pk")
    return list(rows.select_related("assignment__session", "assignment__venue", "venue")[:MOST_PAST])
