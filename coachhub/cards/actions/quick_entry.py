"""A whole squad's paper cards, typed in at once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from django.db import transaction

from coachhub.base.actor import Actor
from coachhub.cards.actions.logging_sets import EntryDraft, Outcome, log_entries
from coachhub.cards.models import Card


@transaction.atomic
def log_cards(*, actor: Actor, cards: Mapping[int, Card], drafts: Mapping[int, Sequence[EntryDraft]]) -> int:
    """Write the sets of each card (by its key), all or none; returns how many are new. A repeat adds nothing."""
    answers = [
        answer for key, rows in drafts.items() for answer in log_entries(actor=actor, card=cards[key], drafts=rows)
    ]
    return sum(1 for answer in answers if answer.outcome is Outcome.STORED)
