"""Taps that write the plan as done: a round, one line of it, a whole squad's round."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime
from decimal import Decimal
from typing import Any
from uuid import UUID, uuid5

from django.db import transaction

from coachhub.base.actor import Actor
from coachhub.cards.actions.logging_sets import EntryDraft, StoredEntry, log_entries
from coachhub.cards.models import Card, SetEntry
from coachhub.cards.queries.taps import Part
from coachhub.cards.sheet import Sheet, SheetLine
from coachhub.coaching.facts import Mass


@dataclass(frozen=True, slots=True)
class Tap:
    """One tap on "round done as planned": its uuid makes the uuids of all its entries, so a repeat changes nothing.

    Per line key: `loads`, what was taken where the plan names no load; `reserves`, half repetitions in reserve.
    """

    uuid: UUID
    number: int
    seq: int
    client_at: datetime
    loads: Mapping[str, Mass] = field(default_factory=dict)
    reserves: Mapping[str, int] = field(default_factory=dict)


def log_round_as_planned(
    *, actor: Actor, card: Card, sheet: Sheet, group_key: str, tap: Tap
) -> tuple[StoredEntry, ...]:
    """Write every open line of the round as planned.

    Reps of a range are written at its low end: what is recorded is never more than what was done.
    """
    return log_as_planned(actor=actor, card=card, sheet=sheet, places=[(group_key, tap.number)], tap=tap)


def log_as_planned(
    *, actor: Actor, card: Card, sheet: Sheet | Part, places: Iterable[tuple[str, int]], tap: Tap, line_key: str = ""
) -> tuple[StoredEntry, ...]:
    """Write what is open in those rounds (block key, number) by one tap; of one line only where it is named."""
    drafts = [
        draft
        for group_key, number in places
        if (group := sheet.group(group_key))
        for line in group.lines
        if line_key in ("", line.key)
        for draft in _planned(line, replace(tap, number=number))
    ]
    part = sheet if isinstance(sheet, Part) else None
    return log_entries(actor=actor, card=card, drafts=drafts, part=part) if drafts else ()


def _planned(line: SheetLine, tap: Tap) -> list[EntryDraft]:
    cell = line.cell(tap.number)
    if cell is None:
        return []
    drafts = [planned_draft(line, side, tap) for side in line.sides]
    # A repeat of this very tap goes through again and is answered with what is stored.
    own = {draft.uuid for draft in drafts}
    written = cell.before | {entry.fact.side for entry in cell.entries if entry.fact.uuid not in own}
    return [] if cell.is_full(written) else [draft for draft in drafts if draft.side not in written]


def planned_draft(line: SheetLine, side: str, tap: Tap) -> EntryDraft:
    """One set of this line as the plan has it."""
    return EntryDraft(
        uuid=_entry_uuid(tap.uuid, line.key, tap.number, side),
        line_key=line.key,
        round=tap.number,
        client_at=tap.client_at,
        seq=tap.seq,
        side=side,
        load=tap.loads.get(line.key, line.load),
        rir_half=tap.reserves.get(line.key),
        line_pk=line.pk,
        **amount_columns(line.dose_kind, line.low),
    )


def _entry_uuid(tap: UUID, line_key: str, number: int, side: str) -> UUID:
    return uuid5(tap, f"{line_key}:{number}:{side}")


def squad_tap(uuid: UUID, card_pk: int) -> UUID:
    """The tap on one card that a tap for the whole squad stands for."""
    return uuid5(uuid, str(card_pk))


def tap_entry(tap: UUID, entry: SetEntry) -> UUID:
    """The uuid that this set would have, had that tap written it."""
    return _entry_uuid(tap, entry.line_key, entry.round, entry.side)


def amount_columns(dose_kind: str, amount: Decimal) -> dict[str, Any]:
    """Return the entry's columns for an amount of that kind."""
    if dose_kind in ("time", "hold"):
        return {"time_s": int(amount)}
    if dose_kind == "distance":
        return {"distance_m": amount}
    return {"reps": int(amount)}


@transaction.atomic
def log_squad_round(
    *, actor: Actor, sheets: Iterable[tuple[Card, Sheet]], label: str, number: int, uuid: UUID, client_at: datetime
) -> int:
    """Write the round of the block with this letter as planned for everyone present; returns how many entries.

    Where the load was to be found nobody but the athlete knows it: those sets stay open.
    One transaction: the whole squad's round is on disk once, and after one wait.
    """
    count = 0
    for card, sheet in sheets:
        group = next((g for g in sheet.blocks if g.label == label), None)
        if group is None or sheet.is_absent or sheet.is_waiting:
            continue
        tap = Tap(squad_tap(uuid, card.pk), number, sheet.next_seq, client_at)
        drafts = [draft for line in group.lines if not line.wants_load for draft in _planned(line, tap)]
        count += len(log_entries(actor=actor, card=card, drafts=drafts)) if drafts else 0
    return count
