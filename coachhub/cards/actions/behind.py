"""Coming cards that nobody has begun, and that something else than the session has left behind."""

from __future__ import annotations

from collections.abc import Callable

from django.db.models import Q

from coachhub.base.clock import today
from coachhub.cards.models import Card


def mark_behind(wanted: Q, is_meant: Callable[[Card], bool] = lambda _card: True) -> int:
    """Mark coming cards not begun, of those wanted, for which `is_meant` holds; returns how many."""
    coming = Card.objects.filter(wanted, started_at=None, assignment__cancelled_at=None)
    cards = coming.filter(assignment__on_date__gte=today()).select_related("athlete", "assignment").distinct()
    ids = [card.pk for card in cards if is_meant(card)]
    # Asked again in the same statement: somebody may have logged a first set meanwhile.
    return Card.objects.filter(pk__in=ids, started_at=None).update(is_behind=True)
