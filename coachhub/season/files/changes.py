"""What an import of dates would do: what is new, what changes, what stands against a row. Nothing is written here."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, time
from typing import Any

from django.utils.dates import WEEKDAYS_ABBR
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from coachhub.base.actor import Actor
from coachhub.base.changes import Change, Outcome
from coachhub.base.columns import Reading, RowReader
from coachhub.base.tables import Table
from coachhub.base.text import fold
from coachhub.people.queries import live_squads
from coachhub.season.files.columns import COLUMNS, FileKind
from coachhub.season.files.rows import DateCells, read_date_row
from coachhub.season.models import Happening, MatchDay, SkippedDay, Weekday, weekdays_as_number

Values = tuple[tuple[str, Any], ...]
_LABELS = {column.key: column.label for column in COLUMNS} | {
    "opponent": gettext_lazy("against"),
    "on_date": gettext_lazy("day"),
}


@dataclass(frozen=True, slots=True)
class DateWish:
    """`pk` None: a new date. `values`: the fields to write. `is_cancelled` None: as it is. `not_on`: days to skip."""

    is_match: bool
    pk: int | None
    squad: int
    values: Values
    is_cancelled: bool | None
    not_on: tuple[date, ...] = ()


DateOutcome = Outcome[DateWish]


@dataclass
class Known:
    """The dates of the actor's squads, by uid, and by what they say where there is none."""

    squads: dict[str, int]
    matches: dict[object, MatchDay] = field(default_factory=dict)
    happenings: dict[object, Happening] = field(default_factory=dict)
    skipped: dict[int, frozenset[date]] = field(default_factory=dict)

    @classmethod
    def of(cls, actor: Actor) -> Known:
        known = cls({fold(squad.name): squad.pk for squad in live_squads(actor)})
        for match in MatchDay.objects.filter(squad__in=known.squads.values()):
            known.matches[match_key(match.squad_id, match.on_date, match.starts_at, match.opponent)] = match
            known.matches[match.squad_id, match.uid or None] = match
        for row in Happening.objects.filter(squad__in=known.squads.values()):
            known.happenings[twin_key(row.squad_id, row.kind, row.name, row.from_on, row.starts_at)] = row
            known.happenings[row.squad_id, row.uid or None] = row
        skipped = SkippedDay.objects.filter(happening__squad__in=known.squads.values())
        for pk, day in skipped.values_list("happening", "on_date"):
            known.skipped[pk or 0] = known.skipped.get(pk or 0, frozenset()) | {day}
        return known


def match_key(squad: int, day: date | None, at: time | None, opponent: str) -> object:
    return ("match", squad, day, at, opponent)


def twin_key(squad: int | None, kind: str, name: str, day: date | None, at: time | None) -> object:
    return (squad, kind, name, day, at)


def review_dates(actor: Actor, table: Table, reading: Reading) -> list[DateOutcome]:
    known, met = Known.of(actor), dict[object, int]()
    return [_outcome(read_date_row(RowReader(row, reading), known.squads), known, met) for row in table.rows]


def _outcome(cells: DateCells, known: Known, met: dict[object, int]) -> DateOutcome:
    if cells.errors:
        return DateOutcome(cells.number, _title(cells), None, errors=cells.errors)
    is_match = cells.kind == FileKind.MATCH
    error = _twice(cells, met, is_match) or _other_sort(cells, known, is_match)
    if error:
        return DateOutcome(cells.number, _title(cells), None, errors=(error,))
    return _match(cells, known) if is_match else _happening(cells, known)


def _twice(cells: DateCells, met: dict[object, int], is_match: bool) -> str:
    alike = (
        match_key(cells.squad, cells.from_on, cells.starts_at, cells.name)
        if is_match
        else twin_key(cells.squad, cells.kind, cells.name, cells.from_on, cells.starts_at)
    )
    keys = [alike, *([(cells.squad, cells.uid)] if cells.uid else [])]
    first = min(met.setdefault(key, cells.number) for key in keys)
    return _("the same date as row %(number)s") % {"number": first} if first != cells.number else ""


def _other_sort(cells: DateCells, known: Known, is_match: bool) -> str:
    others: Any = known.happenings if is_match else known.matches
    if cells.uid and (cells.squad, cells.uid) in others:
        return _("is in the calendar as something else; remove it there first")
    return ""


def _match(cells: DateCells, known: Known) -> DateOutcome:
    twin = known.matches.get(match_key(cells.squad, cells.from_on, cells.starts_at, cells.name))
    row = known.matches.get((cells.squad, cells.uid)) if cells.uid else None
    if row is not None and twin is not None and twin.pk != row.pk:
        return DateOutcome(cells.number, _title(cells), None, errors=(_("the squad has this match already"),))
    row = row or twin
    told: dict[str, Any] = {
        "on_date": cells.from_on,
        "starts_at": cells.starts_at,
        "opponent": cells.name,
        "uid": cells.uid,
    }
    if cells.is_home is not None:
        told["is_home"] = cells.is_home
    return _compared(cells, row, told, is_match=True)


def _happening(cells: DateCells, known: Known) -> DateOutcome:
    row = known.happenings.get((cells.squad, cells.uid)) if cells.uid else None
    twin = twin_key(cells.squad, cells.kind, cells.name, cells.from_on, cells.starts_at)
    row = row or known.happenings.get(twin)
    told = {
        "kind": cells.kind,
        "name": cells.name,
        "place": cells.place,
        "from_on": cells.from_on,
        "to_on": cells.to_on or (None if cells.weekdays else cells.from_on),
        "starts_at": cells.starts_at,
        "minutes": cells.minutes,
        "weekdays": weekdays_as_number(cells.weekdays),
        "every_weeks": cells.every_weeks,
        "uid": cells.uid,
    }
    skipped = known.skipped.get(row.pk, frozenset()) if row is not None else frozenset()
    return _compared(cells, row, told, not_on=tuple(day for day in cells.not_on if day not in skipped))


def _compared(
    cells: DateCells, row: Any, told: dict[str, Any], *, is_match: bool = False, not_on: tuple[date, ...] = ()
) -> DateOutcome:
    if row is not None and not told["uid"]:
        del told["uid"]
    values = tuple((key, value) for key, value in told.items() if row is None or getattr(row, key) != value)
    shown = [(key, value) for key, value in values if key != "uid"]
    changes = (
        []
        if row is None
        else [Change(str(_LABELS[key]), words(key, getattr(row, key)), words(key, value)) for key, value in shown]
    )
    is_cancelled = cells.is_cancelled
    if is_cancelled is None or is_cancelled == bool(row is not None and row.cancelled_at):
        is_cancelled = None
    else:
        changes.append(Change(str(_LABELS["state"]), "", _("called off") if is_cancelled else _("takes place")))
    if row is None:
        changes = [Change(str(_LABELS["from_on"]), "", _when(cells)), *changes]
    changes += [Change(str(_LABELS["not_on"]), "", day.isoformat()) for day in not_on]
    wish = DateWish(is_match, row.pk if row is not None else None, cells.squad, values, is_cancelled, not_on)
    return DateOutcome(cells.number, _title(cells), wish, tuple(changes), is_new=row is None)


def _title(cells: DateCells) -> str:
    kind = str(FileKind(cells.kind).label) if cells.kind else ""
    return ": ".join(text for text in (kind, cells.name) if text)


def _when(cells: DateCells) -> str:
    parts = [
        words("from_on", cells.from_on),
        words("starts_at", cells.starts_at),
        words("weekdays", weekdays_as_number(cells.weekdays)),
        words("to_on", cells.to_on),
    ]
    return ", ".join(part for part in parts if part)


def words(key: str, value: Any) -> str:
    """A value as it stands in a table."""
    if value is None or value == "":
        return ""
    if key == "weekdays":
        return " ".join(str(WEEKDAYS_ABBR[day]) for day in Weekday.values if value >> day & 1)
    if isinstance(value, bool):
        return _("yes") if value else _("no")
    if isinstance(value, time):
        return f"{value:%H:%M}"
    return value.isoformat() if isinstance(value, date) else str(value)
