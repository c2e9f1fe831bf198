"""Say what became of copies that are out of date."""

from __future__ import annotations

from collections.abc import Collection

from django.core.exceptions import PermissionDenied
from django.db import transaction

from coachhub.base.actor import READERS, Actor
from coachhub.base.clock import now
from coachhub.cards.models import Card, CardCopy, CopyAnswer, CopyAnswerKind


@transaction.atomic
def answer_copies(*, actor: Actor, copy_ids: Collection[int], kind: CopyAnswerKind) -> int:
    """For each copy and the older ones of the same card and kind; how many were named. Said twice, the first counts."""
    if actor.kind not in READERS:
        raise PermissionDenied
    seen = CardCopy.objects.filter(card__in=Card.objects.visible_to(actor))
    named = list(seen.filter(pk__in=copy_ids))
    rows = CardCopy.objects.filter(card__in={copy.card_id for copy in named}, answer=None)
    numbers = {(copy.card_id, copy.kind): copy.revision_number for copy in named}
    said_at, said_by = now(), actor.require_user_id()
    answers = [
        CopyAnswer(copy=row, kind=kind, said_by_id=said_by, said_at=said_at)
        for row in rows
        if row.revision_number <= numbers.get((row.card_id, row.kind), 0)
    ]
    CopyAnswer.objects.bulk_create(answers, ignore_conflicts=True)
    return len(named)
