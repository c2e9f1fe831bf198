"""Writes what was done. Append-only: a repeat answers what is stored, a correction is a new entry beside it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from enum import StrEnum
from typing import Any
from uuid import UUID, uuid5

from django.core.exceptions import PermissionDenied
from django.db import IntegrityError, transaction

from coachhub.base.actor import Actor
from coachhub.base.clock import now, today
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
from coachhub.cards.queries.taps import Part
from coachhub.cards.sheet import Sheet
from coachhub.coaching.facts import Mass


class Outcome(StrEnum):
    STORED = "stored"
    REPEAT = "repeat"
    CONFLICT = "conflict"


@dataclass(frozen=True, slots=True)
class EntryDraft:
    """A set as somebody reports it; `seq` is 1 + the highest they had seen on the card.

    `line_pk` names the line as it was shown to them: a swap may have reached the card since.
    """

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
    line_pk: int | None = None


@dataclass(frozen=True, slots=True)
class StoredEntry:
    """`sent` is what came under a used uuid with other content."""

    entry: SetEntry
    outcome: Outcome
    sent: SetEntry | None = None


# What makes two entries the same fact; who sent it, and when it arrived, do not.
_CONTENT = (
    "supersedes_uuid", "kind", "card_id", "line_key", "round", "side", "reps", "time_s", "distance_m", "height_cm",
    "load_value", "load_unit", "rir_half", "note",
)  # fmt: skip


def log_entries(
    *, actor: Actor, card: Card, drafts: Sequence[EntryDraft], part: Part | None = None
) -> tuple[StoredEntry, ...]:
    """Store each draft, or return what is stored under its uuid. KeyError for a line this card never had.

    Facts are never refused: a set done against a restriction, or on a stopped card, is stored and flagged.
    `part`, where it was loaded for these drafts, saves looking the same up again.
    """
    require_log(actor, card)
    lines = part.rows if part else _lines(card, drafts)
    rows = [entry_row(card, lines[draft.line_pk or draft.line_key], draft, actor) for draft in drafts]
    flagged = flagged_exercises(card.athlete_id, {row.exercise_id for row in rows})
    received_at = now()
    for row in rows:
        row.received_at = received_at
        row.is_flagged = row.kind == EntryKind.DONE and row.exercise_id in flagged
    return _insert(card, rows) or _insert_or_return(rows)


def _insert(card: Card, rows: list[SetEntry]) -> tuple[StoredEntry, ...]:
    """The usual case in one statement: nothing is known under any of these uuids. Empty where something is."""
    try:
        with transaction.atomic():
            SetEntry.objects.bulk_create(rows)
            if card.started_at is None:
                Card.objects.filter(pk=card.pk, started_at=None).update(started_at=rows[0].received_at)
    except IntegrityError:
        for row in rows:
            row.pk = None
        return ()
    return tuple(StoredEntry(row, Outcome.STORED) for row in rows)


@transaction.atomic
def _insert_or_return(rows: list[SetEntry]) -> tuple[StoredEntry, ...]:
    uuids = [row.uuid for row in rows]
    known = set(SetEntry.objects.filter(uuid__in=uuids).values_list("uuid", flat=True))
    SetEntry.objects.bulk_create([row for row in rows if row.uuid not in known], ignore_conflicts=True)
    stored = {entry.uuid: entry for entry in SetEntry.objects.filter(uuid__in=uuids)}
    return tuple(_answer(row, stored[row.uuid], row.uuid in known) for row in rows)


def keep_both(*, actor: Actor, card: Card, answers: Sequence[StoredEntry]) -> None:
    """Store what `log_entries` met under a used uuid as an entry of its own, so that the coach sees both.

    Its new uuid follows from its content: sent again, it is the same entry.
    """
    require_log(actor, card)
    rows = [given.sent for given in answers if given.sent is not None and given.sent.card_id == card.pk]
    if not rows:
        return
    for row in rows:
        row.pk, row.uuid = None, uuid5(row.uuid, repr(content_of(row)))
    _insert_or_return(rows)


def _answer(row: SetEntry, stored: SetEntry, was_known: bool) -> StoredEntry:
    if content_of(row) != content_of(stored):
        return StoredEntry(stored, Outcome.CONFLICT, row)
    return StoredEntry(stored, Outcome.REPEAT if was_known else Outcome.STORED)


def content_of(entry: SetEntry) -> tuple[Any, ...]:
    return tuple(getattr(entry, name) for name in _CONTENT)


def _lines(card: Card, drafts: Sequence[EntryDraft]) -> dict[int | str, CardLine]:
    """Return lines by the key they were drafted for: the newest under it, or the very line that was seen."""
    keys = {draft.line_key for draft in drafts}
    rows = list(CardLine.objects.filter(revision__card=card, line_key__in=keys).order_by("revision__number"))
    newest: dict[int | str, CardLine] = {row.line_key: row for row in rows}
    return newest | {row.pk: row for row in rows}


def entry_row(card: Card, line: Any, draft: EntryDraft, actor: Actor) -> SetEntry:
    assignment = card.assignment
    return SetEntry(
        uuid=draft.uuid,
        supersedes_uuid=draft.supersedes_uuid,
        seq=draft.seq,
        kind=draft.kind,
        card=card,
        line_id=line.pk,
        line_key=line.line_key,
        athlete_id=card.athlete_id,
        exercise_id=line.exercise_id,
        venue_id=card.place_id,
        # Done before its day: it was done today.
        on_date=min(assignment.on_date, today()),
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
    lines = group.written_or_planned(number) if group else ()
    cells = [cell for line in lines if (cell := line.cell(number))]
    done = [entry.fact.pk for cell in cells for entry in cell.entries if entry.is_done]
    with transaction.atomic():
        for entry in SetEntry.objects.filter(pk__in=done).select_related("card").order_by("pk"):
            mark_set(actor=actor, entry=entry, quality=quality)
    return len(done)


@transaction.atomic
def note_attendance(
    *, actor: Actor, card: Card, status: AttendanceStatus, minutes_left: int | None = None
) -> Attendance:
    """`minutes_left` of the slot, for somebody who comes late."""
    if not actor.may_log:
        raise PermissionDenied
    require_log(actor, card)
    return Attendance.objects.create(
        card=card, status=status, minutes_left=minutes_left, noted_at=now(), noted_by_id=actor.user_id
    )
