"""Cards as sheets: five queries for one or for thirty, one more where anything was swapped after sets."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any, Final, cast

from django.db.models import QuerySet

from coachhub.cards.models import AttendanceStatus, Card, CardRevision, LineStatus, SetEntry
from coachhub.cards.queries.door_steps import steps_of
from coachhub.cards.queries.sheet_rows import entries_of, flags_of, heads_of, lines_at, lines_behind, lines_of
from coachhub.cards.sheet import Cell, LastTime, RevisionInfo, Sheet, SheetEntry, SheetGroup, SheetLine
from coachhub.coaching.entries import Counted, Slot, counting, next_seq
from coachhub.coaching.facts import Mass, Note
from coachhub.coaching.loading import LoadUnit
from coachhub.people.models import Athlete

Entries = dict[Slot, Counted[SetEntry]]
_NONE: Final[frozenset[str]] = frozenset()


def load_sheet(cards: QuerySet[Card], pk: int) -> Sheet | None:
    """Return the sheet of one of those cards, or None; pass `Card.objects.visible_to(actor)`."""
    return next(iter(load_sheets(cards.filter(pk=pk))), None)


def as_seen(sheet: Sheet, number: int) -> Sheet:
    """Return the sheet with the lines of an older revision, for whoever still has that one before them."""
    if number == sheet.revision.number:
        return sheet
    revision = CardRevision.objects.filter(card=sheet.card_id, number=number).first()
    if revision is None:
        return sheet
    lines, entries = lines_of([revision.pk])[revision.pk], entries_of([sheet.card_id])[sheet.card_id]
    behind, counted = lines_behind([(lines, entries)]), counting(entries)
    return replace(
        sheet,
        revision=RevisionInfo(revision.number, revision.reason, revision.made_at),
        groups=tuple(sheet_group(plan, lines, counted, behind) for plan in revision.layout),
    )


def lines_before(sheet: Sheet) -> tuple[SheetLine, ...]:
    """Return the lines of the revision before this one, left out ones included, without what was written."""
    return tuple(_line(row, {}, None) for row in lines_at(sheet.card_id, sheet.revision.number - 1))


def load_sheets(cards: QuerySet[Card]) -> list[Sheet]:
    """Return sheets in the order of athletes' names."""
    heads = heads_of(list(cards.order_by().values_list("pk", flat=True)))
    lines, entries = lines_of([head.pk for head in heads]), entries_of([head.card_id for head in heads])
    flags = flags_of([head.card__athlete_id for head in heads])
    behind = lines_behind([(lines[head.pk], entries[head.card_id]) for head in heads])
    return [_sheet(head, lines[head.pk], entries[head.card_id], flags[head.card__athlete_id], behind) for head in heads]


def _sheet(head: Any, lines: list[Any], entries: list[SetEntry], flags: list[str], behind: list[Any]) -> Sheet:
    athlete = Athlete(
        given_name=head.card__athlete__given_name,
        family_name=head.card__athlete__family_name,
        born_on=head.card__athlete__born_on,
    )
    counted, started_at = counting(entries), head.card__started_at
    return Sheet(
        card_id=head.card_id,
        assignment_id=head.card__assignment_id,
        athlete_id=head.card__athlete_id,
        athlete_name=athlete.name,
        athlete_unit=head.card__athlete__unit,
        is_minor=athlete.is_minor_on(head.card__assignment__on_date),
        is_rir_taught=head.card__athlete__is_rir_taught,
        session_name=head.card__assignment__session__name,
        plan_name=head.card__assignment__session__plan__name,
        squad_name=head.card__assignment__squad__name or "",
        venue_name=head.card__venue__name or head.card__assignment__venue__name,
        is_supervised=_is_supervised(head),
        on_date=head.card__assignment__on_date,
        week=head.card__assignment__week,
        revision=RevisionInfo(head.number, head.reason, head.made_at, steps_of(head.change__steps or ())),
        is_stale=started_at is None and _is_older(head),
        is_started=started_at is not None,
        flags=tuple(flags),
        is_absent=head.attendance_status == AttendanceStatus.ABSENT,
        next_seq=next_seq(entries),
        last_entry_id=entries[-1].pk if entries else 0,
        last_received_at=max((entry.received_at for entry in entries), default=None),
        groups=tuple(sheet_group(plan, lines, counted, behind) for plan in head.layout),
    )


def _is_older(head: Any) -> bool:
    return bool(head.card__is_behind or head.card__session_revision < head.card__assignment__session__revision)


def _is_supervised(head: Any) -> bool:
    own = head.card__venue__is_supervised
    return bool(head.card__assignment__venue__is_supervised if own is None else own)


def sheet_group(plan: dict[str, Any], lines: Sequence[Any], counted: Entries, behind: Sequence[Any] = ()) -> SheetGroup:
    """Return one block of a layout; `lines` have the columns of `sheet_rows.LINE`, so have those `behind` a swap."""
    mine = [line for line in lines if line.group_key == plan["key"]]
    return SheetGroup(
        **plan,
        lines=tuple(_line(line, counted, plan) for line in mine if line.status == LineStatus.PLANNED),
        dropped=tuple(_line(line, counted, plan) for line in mine if line.status == LineStatus.DROPPED),
        earlier=tuple(_earlier(mine, counted, behind)),
    )


def _earlier(lines: Sequence[Any], counted: Entries, behind: Sequence[Any]) -> Iterator[SheetLine]:
    """What the lines were when sets stood on them already: one for each exercise, as it was planned last."""
    now = {line.line_key: line.exercise_id for line in lines}
    wrote = {entry.fact.line_id for entry in counted.values()}
    seen = set()
    for row in behind:
        what = row.line_key, row.exercise_id
        if row.pk in wrote and now.get(row.line_key, row.exercise_id) != row.exercise_id and what not in seen:
            seen.add(what)
            yield replace(_line(row, counted, None), is_dropped=True)


def _line(row: Any, counted: Entries, plan: dict[str, Any] | None) -> SheetLine:
    """A line that is begun keeps its sets when rounds of its block are cut: then there are no more than rounds."""
    last, sets = row.last, min(row.sets, plan["rounds_max"]) if plan else row.sets
    return SheetLine(
        pk=row.pk,
        key=row.line_key,
        label=row.label,
        name=row.name,
        written_name=row.name if row.written_exercise_id == row.exercise_id else row.written_exercise__name,
        exercise_id=row.exercise_id,
        is_dropped=row.status == LineStatus.DROPPED,
        sets=sets,
        dose_kind=row.dose_kind,
        low=row.low,
        high=row.high,
        per=row.per,
        directions=tuple(row.directions),
        measure=row.measure,
        laterality=row.laterality,
        load_meaning=row.load_meaning,
        load_rule=row.load_rule,
        load=_mass(row.load_value, row.load_unit),
        load_high=_mass(row.load_high, row.load_unit),
        load_words=row.load_words,
        rir_half=row.rir_half,
        tempo=row.tempo,
        cue=row.cue,
        cues=tuple(row.cues),
        spotting=row.spotting,
        rest_after_s=row.rest_after_s,
        ramp_ups=tuple((Mass(Decimal(value), unit), reps) for value, unit, reps in row.ramp_ups),
        ramp_plates=tuple(tuple(map(Decimal, plates)) for plates in row.plates.get("ramp_ups", ())),
        bar=row.plates.get("bar", ""),
        per_side=tuple(map(Decimal, row.plates.get("per_side", ()))),
        steps=tuple(Mass(Decimal(value), unit) for value, unit in row.steps),
        last=_last(last) if last else None,
        trace=tuple(Note(t["code"], tuple(t["params"].items()), tuple(t["entries"])) for t in row.trace),
        cells=_cells(row, sets, counted),
    )


def _cells(row: Any, sets: int, counted: Entries) -> tuple[Cell, ...]:
    sides = ("left", "right") if row.per == "side" else ("both",)
    cells = []
    for number in range(1, sets + 1):
        found = [
            counted[slot] for side in ("both", "left", "right") if (slot := (row.line_key, number, side)) in counted
        ]
        own = [c for c in found if c.fact.exercise_id == row.exercise_id]
        before = frozenset(c.fact.side for c in found if c not in own) if len(own) < len(found) else _NONE
        cells.append(Cell(number, sides, tuple(map(_entry, own)), before))
    return tuple(cells)


def _entry(counted: Counted[SetEntry]) -> SheetEntry:
    return SheetEntry(counted.fact, counted.rivals, getattr(counted.fact, "quality", "") or "")


def _last(last: dict[str, Any]) -> LastTime:
    on = date.fromisoformat(last["on"]) if last.get("on") else None
    return LastTime(Mass(Decimal(last["value"]), last["unit"]), last["reps"], on)


def _mass(value: Decimal | None, unit: str) -> Mass | None:
    return None if value is None else Mass(value, cast(LoadUnit, unit))
