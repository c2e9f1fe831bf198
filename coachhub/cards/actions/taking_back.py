"""Takes back a round that was written for a whole squad at once."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable
from dataclasses import dataclass
from uuid import UUID, uuid5

from django.db import transaction

from coachhub.base.actor import Actor
from coachhub.base.clock import now, today
from coachhub.cards.actions.as_planned import squad_tap, tap_entry
from coachhub.cards.actions.logging_sets import EntryDraft, log_entries
from coachhub.cards.models import Card, EntryKind, SetEntry
from coachhub.coaching.entries import counting, next_seq


class DayOverError(ValueError):
    """What was written for a day is taken back until that day ends: later it is history, put right set by set."""


@dataclass(frozen=True, slots=True)
class TakenBack:
    """How many sets are taken back, now or by an earlier request, and how many somebody wrote otherwise meanwhile."""

    taken: int = 0
    kept: int = 0


@transaction.atomic
def take_back_squad_round(*, actor: Actor, cards: Iterable[Card], uuid: UUID) -> TakenBack:
    """Void what `log_squad_round` wrote under this uuid. DayOverError for cards of a day that is over.

    The voids' uuids follow from the entries': a repeat changes nothing.
    """
    by_id = {card.pk: card for card in cards}
    if any(card.assignment.on_date < today() for card in by_id.values()):
        raise DayOverError
    taken = kept = 0
    for card_pk, entries in _entries(by_id).items():
        own = [entry for entry in entries if entry.uuid == tap_entry(squad_tap(uuid, card_pk), entry)]
        known = {entry.uuid for entry in entries}
        gone = [entry for entry in own if _void(entry) in known]
        standing = [entry for entry in _uncontested(entries) if entry in own]
        if standing:
            drafts = [_draft(entry, next_seq(entries)) for entry in standing]
            log_entries(actor=actor, card=by_id[card_pk], drafts=drafts)
        taken += len(gone) + len(standing)
        kept += len(own) - len(gone) - len(standing)
    return TakenBack(taken, kept)


def _entries(card_ids: Collection[int]) -> dict[int, list[SetEntry]]:
    found: defaultdict[int, list[SetEntry]] = defaultdict(list)
    for entry in SetEntry.objects.filter(card__in=card_ids).order_by("pk"):
        found[entry.card_id].append(entry)
    return found


def _uncontested(entries: Collection[SetEntry]) -> list[SetEntry]:
    """What counts with nobody's other version beside it."""
    return [one.fact for one in counting(entries).values() if not one.is_contested]


def _void(entry: SetEntry) -> UUID:
    return uuid5(entry.uuid, "taken back")


def _draft(entry: SetEntry, seq: int) -> EntryDraft:
    return EntryDraft(
        uuid=_void(entry),
        line_key=entry.line_key,
        line_pk=entry.line_id,
        round=entry.round,
        client_at=now(),
        seq=seq,
        side=entry.side,
        kind=EntryKind.VOID,
        supersedes_uuid=entry.uuid,
    )
