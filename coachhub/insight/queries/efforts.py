"""How hard a session was, and how long it took."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date
from typing import Final

from django.db.models import OuterRef, QuerySet, Subquery
from django.utils.timezone import localtime

from coachhub.cards.models import Card, SetEntry
from coachhub.insight.models import EffortLoad

# Shorter, and somebody typed the card in afterwards; longer, and somebody came back to it.
SHORTEST_MIN: Final = 10
LONGEST_MIN: Final = 240


def efforts_of(card_ids: Collection[int]) -> dict[int, EffortLoad]:
    """Return the answer that counts, for cards that have one."""
    return {row.card_id: row for row in EffortLoad.objects.filter(card__in=card_ids).order_by("pk")}


def with_effort(cards: QuerySet[Card]) -> QuerySet[Card]:
    """Return the cards with `effort` and `minutes` of the answer that counts, each None without one."""
    newest = EffortLoad.objects.filter(card=OuterRef("pk")).order_by("-pk")
    return cards.annotate(effort=Subquery(newest.values("effort")[:1]), minutes=Subquery(newest.values("minutes")[:1]))


def minutes_logged(card_id: int, on_date: date) -> int | None:
    """Return the minutes from the first set written on that day to the last; None where they say nothing.

    What was put right later is left out.
    """
    rows = SetEntry.objects.filter(card=card_id, supersedes_uuid=None).values_list("client_at", flat=True)
    times = sorted(at for at in rows if localtime(at).date() == on_date)
    minutes = round((times[-1] - times[0]).total_seconds() / 60) if times else 0
    return minutes if SHORTEST_MIN <= minutes <= LONGEST_MIN else None
