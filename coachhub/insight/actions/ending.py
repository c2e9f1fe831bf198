"""A session's end: how hard it was, how long, and what the coach should know."""

from __future__ import annotations

from uuid import UUID, uuid5

from django.core.exceptions import PermissionDenied
from django.db import transaction

from coachhub.base.actor import Actor
from coachhub.base.clock import now
from coachhub.cards.access import require_log
from coachhub.cards.models import Card
from coachhub.insight.models import EffortLoad, SessionNote
from coachhub.insight.queries.efforts import efforts_of
from coachhub.insight.queries.notes import notes_of


def end_session(*, actor: Actor, card: Card, uuid: UUID, effort: int, minutes: int, note: str | None) -> None:
    """Store the answer, and the note where it differs from the last; the same sending again adds nothing.

    `note` is None for whoever may not read notes. Each row's key follows from what was sent and its content: put
    right under the same key it is another row, and a late repeat of the first does not come to stand above it.
    """
    require_log(actor, card)
    with transaction.atomic():
        _add_effort(actor, card, uuid, effort, minutes)
        if note is not None:
            _add_note(actor, card, uuid, note)


def _add_effort(actor: Actor, card: Card, uuid: UUID, effort: int, minutes: int) -> None:
    last = efforts_of([card.pk]).get(card.pk)
    if last is not None and (last.effort, last.minutes) == (effort, minutes):
        return
    row = EffortLoad(
        uuid=uuid5(uuid, f"effort {card.pk} {effort} {minutes}"),
        card=card,
        effort=effort,
        minutes=minutes,
        received_at=now(),
        author_id=actor.user_id,
        device_id=actor.device_id,
    )
    EffortLoad.objects.bulk_create([row], ignore_conflicts=True)


def _add_note(actor: Actor, card: Card, uuid: UUID, text: str) -> None:
    last = notes_of(actor, [card.pk]).get(card.pk)
    if text == (last.text if last else ""):
        return
    row = SessionNote(
        uuid=uuid5(uuid, f"note {card.pk} {text}"),
        card=card,
        text=text,
        received_at=now(),
        author_id=actor.user_id,
        device_id=actor.device_id,
    )
    SessionNote.objects.bulk_create([row], ignore_conflicts=True)


def read_note(*, actor: Actor, note: SessionNote) -> None:
    """A coach has read it; read again, the first time stands."""
    if not actor.may_write or not SessionNote.objects.visible_to(actor).filter(pk=note.pk).exists():
        raise PermissionDenied
    SessionNote.objects.filter(pk=note.pk, read_at=None).update(read_at=now(), read_by=actor.require_user_id())
