"""Cards as sheets: five queries for one or for thirty."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any, Final

from django.db.models import F, OuterRef, QuerySet, Subquery

from coachhub.cards.models import Attendance, Card, CardLine, CardRevision, LineStatus, SetEntry, SetMark
from coachhub.cards.sheet import Cell, LastTime, RevisionInfo, Sheet, SheetEntry, SheetGroup, SheetLine
from coachhub.coaching.entries import Counted, Slot, counting, next_seq
from coachhub.coaching.facts import Mass, Note
from coachhub.people.models import RedFlag

# Of what a sheet names only these columns are shown.
_SHOWN: Final = (
    *("revision_number", "session_revision", "started_at", "athlete", "assignment"),
    *(f"athlete__{name}" for name in ("given_name", "family_name", "search_key", "unit", "born_on", "is_rir_taught")),
    *("assignment__on_date", "assignment__week", "assignment__session", "assignment__squad", "assignment__venue"),
    *("assignment__session__name", "assignment__session__revision", "assignment__session__plan__name"),
    *("assignment__squad__name", "assignment__venue__name", "assignment__venue__is_supervised"),
)
# The columns of a line that a sheet shows.
LINE: Final = (
    *(
        "revision",
        "line_key",
        "group_key",
        "label",
        "status",
        "exercise",
        "written_exercise",
        "name",
        "cues",
        "measure",
    ),
    *("load_meaning", "laterality", "spotting", "sets", "dose_kind", "low", "high", "per", "directions", "load_rule"),
    *("load_value", "load_unit", "load_high", "load_words", "rir_half", "tempo", "cue", "rest_after_s", "ramp_ups"),
    *("plates", "steps", "last", "trace"),
)
WRITTEN: Final = F("written_exercise__name")
Entries = dict[Slot, Counted[SetEntry]]


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
    lines, counted = _lines([revision.pk])[revision.pk], counting(_entries([sheet.card_id])[sheet.card_id])
    return replace(
        sheet,
        revision=RevisionInfo(revision.number, revision.reason, revision.made_at),
        groups=tuple(sheet_group(plan, lines, counted) for plan in revision.layout),
    )


def lines_before(sheet: Sheet) -> tuple[SheetLine, ...]:
    """Return the lines of the revision before this one, left out ones included, without what was written."""
    rows = CardLine.objects.filter(revision__card=sheet.card_id, revision__number=sheet.revision.number - 1)
    return tuple(_line(row, {}) for row in rows.annotate(written_name=WRITTEN).order_by("position", "pk"))


def load_sheets(cards: QuerySet[Card]) -> list[Sheet]:
    """Return sheets in the order of athletes' names."""
    attendance = Attendance.objects.filter(card=OuterRef("pk")).order_by("-pk")
    rows = list(
        cards.select_related("athlete", "assignment__session__plan", "assignment__squad", "assignment__venue")
        .only(*_SHOWN)
        .annotate(attendance_status=Subquery(attendance.values("status")[:1]))
        .order_by("athlete__search_key", "pk")
    )
    if not rows:
        return []
    ids = [card.pk for card in rows]
    revisions = _revisions(ids)
    lines = _lines([revision.pk for revision in revisions.values()])
    entries = _entries(ids)
    flags = _flags([card.athlete_id for card in rows])
    return [
        _sheet(card, revisions[card.pk], lines[revisions[card.pk].pk], entries[card.pk], flags[card.athlete_id])
        for card in rows
    ]


def _revisions(ids: Sequence[int]) -> dict[int, CardRevision]:
    rows = CardRevision.objects.filter(card__in=ids, number=F("card__revision_number"))
    return {row.card_id: row for row in rows}


def _lines(revision_ids: Sequence[int]) -> defaultdict[int, list[CardLine]]:
    found: defaultdict[int, list[CardLine]] = defaultdict(list)
    rows = CardLine.objects.filter(revision__in=revision_ids).annotate(written_name=WRITTEN)
    for row in rows.only(*LINE).order_by("position", "pk"):
        found[row.revision_id].append(row)
    return found


def _entries(ids: Sequence[int]) -> defaultdict[int, list[SetEntry]]:
    found: defaultdict[int, list[SetEntry]] = defaultdict(list)
    newest = SetMark.objects.filter(entry=OuterRef("pk")).order_by("-pk").values("quality")[:1]
    for row in SetEntry.objects.filter(card__in=ids).annotate(quality=Subquery(newest)).order_by("pk"):
        found[row.card_id].append(row)
    return found


def _flags(athlete_ids: Sequence[int]) -> defaultdict[int, list[str]]:
    found: defaultdict[int, list[str]] = defaultdict(list)
    for row in RedFlag.objects.filter(athlete__in=athlete_ids, cleared_at=None).order_by("pk"):
        found[row.athlete_id].append(row.kind)
    return found


def _sheet(
    card: Any, revision: CardRevision, lines: list[CardLine], entries: list[SetEntry], flags: list[str]
) -> Sheet:
    assignment, athlete = card.assignment, card.athlete
    counted = counting(entries)
    return Sheet(
        card_id=card.pk,
        assignment_id=assignment.pk,
        athlete_id=athlete.pk,
        athlete_name=athlete.name,
        athlete_unit=athlete.unit,
        is_minor=athlete.is_minor_on(assignment.on_date),
        is_rir_taught=athlete.is_rir_taught,
        session_name=assignment.session.name,
        plan_name=assignment.session.plan.name,
        squad_name=assignment.squad.name if assignment.squad else "",
        venue_name=assignment.venue.name,
        is_supervised=assignment.venue.is_supervised,
        on_date=assignment.on_date,
        week=assignment.week,
        revision=RevisionInfo(revision.number, revision.reason, revision.made_at),
        is_stale=card.started_at is None and card.session_revision < assignment.session.revision,
        is_started=card.started_at is not None,
        flags=tuple(flags),
        is_absent=card.attendance_status == "absent",
        next_seq=next_seq(entries),
        last_entry_id=entries[-1].pk if entries else 0,
        last_received_at=max((entry.received_at for entry in entries), default=None),
        groups=tuple(sheet_group(plan, lines, counted) for plan in revision.layout),
    )


def sheet_group(plan: dict[str, Any], lines: list[CardLine], counted: Entries) -> SheetGroup:
    """Return one block of a layout; its lines carry `written_name`."""
    mine = [line for line in lines if line.group_key == plan["key"]]
    return SheetGroup(
        **plan,
        lines=tuple(_line(line, counted) for line in mine if line.status == LineStatus.PLANNED),
        dropped=tuple(_line(line, counted) for line in mine if line.status == LineStatus.DROPPED),
    )


def _line(row: Any, counted: Entries) -> SheetLine:
    last = row.last
    return SheetLine(
        pk=row.pk,
        key=row.line_key,
        label=row.label,
        name=row.name,
        written_name=row.name if row.written_exercise_id == row.exercise_id else row.written_name,
        exercise_id=row.exercise_id,
        is_dropped=row.status == LineStatus.DROPPED,
        sets=row.sets,
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
        cells=_cells(row, counted),
    )


def _cells(row: Any, counted: Entries) -> tuple[Cell, ...]:
    sides = ("left", "right") if row.per == "side" else ("both",)
    cells = []
    for number in range(1, row.sets + 1):
        found = [
            counted[slot] for side in ("both", "left", "right") if (slot := (row.line_key, number, side)) in counted
        ]
        cells.append(Cell(number, sides, tuple(_entry(c) for c in found)))
    return tuple(cells)


def _entry(counted: Counted[SetEntry]) -> SheetEntry:
    return SheetEntry(counted.fact, counted.rivals, getattr(counted.fact, "quality", None) or "")


def _last(last: dict[str, Any]) -> LastTime:
    on = date.fromisoformat(last["on"]) if last.get("on") else None
    return LastTime(Mass(Decimal(last["value"]), last["unit"]), last["reps"], on)


def _mass(value: Decimal | None, unit: str) -> Mass | None:
    return None if value is None else Mass(value, "lb" if unit == "lb" else "kg")
