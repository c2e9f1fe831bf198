"""Writes what was done. Append-only: a repeat answers what is stored, a correction is a new entry beside it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from decimal import Decimal
from enum import StrEnum
from typing import Any
from uuid import UUID, uuid5

from django.core.exceptions import PermissionDenied
from django.db import transaction

from coachhub.base.actor import Actor
from coachhub.base.clock import now
from coachhub.cards.access import require_log
from coachhub.cards.actions.flagging import flagged_exercises
from coachhub.cards.models import (
    Attendance,
    AttendanceStatus,
    Card,
    CardLine,
    EntryKind,
    EntrySide,
    SetEntry,
    SetMark,
    SetQuality,
)
from coachhub.cards.sheet import Sheet, SheetLine
from coachhub.coaching.facts import Mass


class Outcome(StrEnum):
    STORED = "stored"
    REPEAT = "repeat"
    CONFLICT = "conflict"


@dataclass(frozen=True, slots=True)
class EntryDraft:
    """A set as somebody reports it; `seq` is 1 + the highest they had seen on the card."""

    uuid: UUID
    line_key: str
    round: int
    client_at: datetime
    seq: int = 1
    side: str = EntrySide.BOTH
    kind: str = EntryKind.DONE
    reps: int | None = None
    time_s: int | None = None
    distance_m: Decimal | None = None
    height_cm: Decimal | None = None
    load: Mass | None = None
    rir_half: int | None = None
    note: str = ""
    supersedes_uuid: UUID | None = None


@dataclass(frozen=True, slots=True)
class StoredEntry:
    entry: SetEntry
    outcome: Outcome


# What makes two entries the same fact; who sent it, and when it arrived, do not.
_CONTENT = (
    "supersedes_uuid", "kind", "card_id", "line_key", "round", "side", "reps", "time_s", "distance_m", "height_cm",
    "load_value", "load_unit", "rir_half", "note",
)  # fmt: skip


def log_entries(*, actor: Actor, card: Card, drafts: Sequence[EntryDraft]) -> tuple[StoredEntry, ...]:
    """Store each draft, or return what is stored under its uuid. KeyError for a line this card never had.

    Facts are never refused: a set done against a restriction, or on a stopped card, is stored and flagged.
    """
    require_log(actor, card)
    lines = _lines(card, {draft.line_key for draft in drafts})
    flagged = flagged_exercises(card.athlete_id, {line.exercise_id for line in lines.values()})
    received_at = now()
    rows = [_row(card, lines[draft.line_key], draft, actor) for draft in drafts]
    for row in rows:
        row.received_at = received_at
        row.is_flagged = row.kind == EntryKind.DONE and row.exercise_id in flagged
    with transaction.atomic():
        known = set(SetEntry.objects.filter(uuid__in=[row.uuid for row in rows]).values_list("uuid", flat=True))
        SetEntry.objects.bulk_create([row for row in rows if row.uuid not in known], ignore_conflicts=True)
        if card.started_at is None:
            Card.objects.filter(pk=card.pk, started_at=None).update(started_at=received_at)
        stored = {entry.uuid: entry for entry in SetEntry.objects.filter(uuid__in=[row.uuid for row in rows])}
    return tuple(_answer(row, stored[row.uuid], row.uuid in known) for row in rows)


def _answer(row: SetEntry, stored: SetEntry, was_known: bool) -> StoredEntry:
    if content_of(row) != content_of(stored):
        return StoredEntry(stored, Outcome.CONFLICT)
    return StoredEntry(stored, Outcome.REPEAT if was_known else Outcome.STORED)


def content_of(entry: SetEntry) -> tuple[Any, ...]:
    return tuple(getattr(entry, name) for name in _CONTENT)


def _lines(card: Card, keys: set[str]) -> dict[str, CardLine]:
    """Return the newest line under each key: an offline phone may still hold an older revision."""
    rows = CardLine.objects.filter(revision__card=card, line_key__in=keys).order_by("revision__number")
    return {row.line_key: row for row in rows}


def _row(card: Card, line: CardLine, draft: EntryDraft, actor: Actor) -> SetEntry:
    assignment = card.assignment
    return SetEntry(
        uuid=draft.uuid,
        supersedes_uuid=draft.supersedes_uuid,
        seq=draft.seq,
        kind=draft.kind,
        card=card,
        line=line,
        line_key=line.line_key,
        athlete_id=card.athlete_id,
        exercise_id=line.exercise_id,
        venue_id=assignment.venue_id,
        on_date=assignment.on_date,
        round=draft.round,
        side=draft.side,
        reps=draft.reps,
        time_s=draft.time_s,
        distance_m=draft.distance_m,
        height_cm=draft.height_cm,
        load_value=draft.load.value if draft.load else None,
        load_unit=draft.load.unit if draft.load else "",
        load_kg=round(draft.load.kg, 4) if draft.load else None,
        rir_half=draft.rir_half,
        note=draft.note,
        client_at=draft.client_at,
        author_id=actor.user_id,
        device_id=actor.device_id,
    )


@dataclass(frozen=True, slots=True)
class Tap:
    """One tap on "round done as planned": its uuid makes the uuids of all its entries, so a repeat changes nothing.

    `loads` holds, per line key, what was taken where the plan names no load.
    """

    uuid: UUID
    number: int
    seq: int
    client_at: datetime
    loads: Mapping[str, Mass] = field(default_factory=dict)
    rir_half: int | None = None


def log_round_as_planned(
    *, actor: Actor, card: Card, sheet: Sheet, group_key: str, tap: Tap
) -> tuple[StoredEntry, ...]:
    """Write every open line of the round as planned.

    Reps of a range are written at its low end: what is recorded is never more than what was done.
    """
    group = sheet.group(group_key)
    drafts = [draft for line in group.lines for draft in _planned(line, tap)] if group else []
    return log_entries(actor=actor, card=card, drafts=drafts) if drafts else ()


def _planned(line: SheetLine, tap: Tap) -> list[EntryDraft]:
    cell = line.cell(tap.number)
    if cell is None:
        return []
    drafts = [planned_draft(line, side, tap) for side in line.sides]
    # A repeat of this very tap goes through again and is answered with what is stored.
    own = {draft.uuid for draft in drafts}
    written = {entry.fact.side for entry in cell.entries if entry.fact.uuid not in own}
    return [] if "both" in written else [draft for draft in drafts if draft.side not in written]


def planned_draft(line: SheetLine, side: str, tap: Tap) -> EntryDraft:
    """One set of this line as the plan has it."""
    return EntryDraft(
        uuid=uuid5(tap.uuid, f"{line.key}:{tap.number}:{side}"),
        line_key=line.key,
        round=tap.number,
        client_at=tap.client_at,
        seq=tap.seq,
        side=side,
        load=tap.loads.get(line.key, line.load),
        rir_half=tap.rir_half,
        **amount_columns(line.dose_kind, line.low),
    )


def amount_columns(dose_kind: str, amount: Decimal) -> dict[str, Any]:
    """Return the entry's columns for an amount of that kind."""
    if dose_kind in ("time", "hold"):
        return {"time_s": int(amount)}
    if dose_kind == "distance":
        return {"distance_m": amount}
    return {"reps": int(amount)}


def log_squad_round(
    *, actor: Actor, sheets: Iterable[tuple[Card, Sheet]], label: str, number: int, uuid: UUID, client_at: datetime
) -> int:
    """Write the round of the block with this letter as planned for everyone present; returns how many entries."""
    count = 0
    for card, sheet in sheets:
        group = next((g for g in sheet.blocks if g.label == label), None)
        if group is None or sheet.is_absent or sheet.is_waiting:
            continue
        tap = Tap(uuid5(uuid, str(card.pk)), number, sheet.next_seq, client_at)
        stored = log_round_as_planned(actor=actor, card=card, sheet=sheet, group_key=group.key, tap=tap)
        count += len(stored)
    return count


@transaction.atomic
def mark_set(*, actor: Actor, entry: SetEntry, quality: SetQuality) -> SetMark:
    """Clean or shaky, by whoever watches on the floor."""
    if not actor.may_log:
        raise PermissionDenied
    require_log(actor, entry.card)
    return SetMark.objects.create(entry=entry, quality=quality, marked_at=now(), marked_by_id=actor.require_user_id())


def mark_round(*, actor: Actor, card: Card, sheet: Sheet, group_key: str, number: int, quality: SetQuality) -> int:
    """Mark every done set of one round; returns how many."""
    group = sheet.group(group_key)
    cells = [cell for line in group.lines if (cell := line.cell(number))] if group else []
    entries = [entry.fact for cell in cells for entry in cell.entries if entry.is_done]
    with transaction.atomic():
        for entry in entries:
            mark_set(actor=actor, entry=entry, quality=quality)
    return len(entries)


@transaction.atomic
def note_attendance(*, actor: Actor, card: Card, status: AttendanceStatus) -> Attendance:
    if not actor.may_log:
        raise PermissionDenied
    require_log(actor, card)
    return Attendance.objects.create(card=card, status=status, noted_at=now(), noted_by_id=actor.user_id)
