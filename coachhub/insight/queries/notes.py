"""What athletes wrote to the coach, as far as the actor may read it."""

from __future__ import annotations

from collections.abc import Collection

from django.db.models import OuterRef, Q, QuerySet, Subquery

from coachhub.base.actor import Actor
from coachhub.cards.models import Card
from coachhub.insight.models import SessionNote


def notes_of(actor: Actor, card_ids: Collection[int]) -> dict[int, SessionNote]:
    """Return the note that counts, for cards that have one."""
    rows = SessionNote.objects.visible_to(actor).newest().filter(card__in=card_ids).exclude(text="")
    return {row.card_id: row for row in rows}


def begun_or_noted(actor: Actor, assignment_ids: Collection[int]) -> QuerySet[Card]:
    """Begun cards of those assignments, and all with a note that no coach has read: `note_pk`, `note_text`; by name."""
    unread = SessionNote.objects.visible_to(actor).newest().filter(card=OuterRef("pk"), read_at=None).exclude(text="")
    rows = Card.objects.visible_to(actor).annotate(
        note_pk=Subquery(unread.values("pk")[:1]), note_text=Subquery(unread.values("text")[:1])
    )
    begun = Q(assignment__in=assignment_ids, started_at__isnull=False)
    return (
        rows.filter(begun | Q(note_pk__isnull=False))
        .select_related("athlete", "assignment__session")
        .order_by("athlete__search_key", "pk")
    )
