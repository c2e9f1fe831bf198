"""What movement patterns are on a card."""

from __future__ import annotations

from collections.abc import Collection

from django.db.models import F

from coachhub.cards.models import CardLine, LineStatus


def patterns_on(card_ids: Collection[int]) -> dict[int, frozenset[str]]:
    """Return per card the patterns of the lines on its newest revision. One query."""
    found: dict[int, frozenset[str]] = {}
    rows = CardLine.objects.filter(
        revision__card__in=card_ids, revision__number=F("revision__card__revision_number"), status=LineStatus.PLANNED
    )
    for card_id, patterns in rows.values_list("revision__card", "patterns"):
        found[card_id] = found.get(card_id, frozenset()) | frozenset(patterns)
    return found
