"""The squad on one sheet: for the staff with alerts, for the wall without anything of health."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Final

from django.utils.formats import date_format
from django.utils.timezone import localtime
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.cards import words
from coachhub.cards.sheet import Sheet, SheetGroup, SheetLine
from coachhub.cards.words_health import pain_text, restriction_text
from coachhub.paper.facts import Known
from coachhub.people.models import Squad
from coachhub.people.queries_care import consents_missing

MOST_COLUMNS: Final = 9


@dataclass(frozen=True, slots=True)
class SquadColumn:
    key: str
    label: str
    name: str
    rounds: str


@dataclass(frozen=True, slots=True)
class SquadRow:
    """`instead`: stands across all cells of who must not train now."""

    name: str
    is_marked: bool
    instead: str
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SquadTable:
    columns: tuple[SquadColumn, ...]
    rows: tuple[SquadRow, ...]


@dataclass(frozen=True, slots=True)
class AlertRow:
    name: str
    contact: str
    alerts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SquadHead:
    session: str
    date: str
    venue: str
    squad: str
    week: int
    as_of: str
    has_minors: bool

    @classmethod
    def of(cls, sheets: Sequence[Sheet], as_of: datetime) -> SquadHead:
        first = sheets[0]
        return cls(
            session=first.session_name,
            date=date_format(first.on_date, "D j M Y"),
            venue=first.venue_name,
            squad=first.squad_name or _("single athletes"),
            week=first.week,
            as_of=date_format(localtime(as_of), "H:i"),
            has_minors=any(sheet.is_minor for sheet in sheets),
        )


@dataclass(frozen=True, slots=True)
class SquadSheet:
    """`alerts` are empty on the wall."""

    head: SquadHead
    is_staff: bool
    tables: tuple[SquadTable, ...]
    alerts: tuple[AlertRow, ...]


def staff_sheet(
    sheets: Sequence[Sheet], known: Mapping[int, Known], squads: Sequence[Squad], actor: Actor, as_of: datetime
) -> SquadSheet:
    alerts = {sheet.card_id: alert_row(sheet, known[sheet.athlete_id], squads, actor) for sheet in sheets}
    marked = frozenset(card_id for card_id, row in alerts.items() if row.alerts)
    tables = _tables(sheets, marked, is_staff=True)
    return SquadSheet(SquadHead.of(sheets, as_of), True, tables, tuple(alerts.values()))


def wall_sheet(sheets: Sequence[Sheet], as_of: datetime) -> SquadSheet:
    return SquadSheet(SquadHead.of(sheets, as_of), False, _tables(sheets, frozenset(), is_staff=False), ())


def alert_row(sheet: Sheet, known: Known, squads: Sequence[Squad], actor: Actor) -> AlertRow:
    contact = known.athlete.emergency_contact or next(_guardian_contacts(known, sheet), _("none noted"))
    return AlertRow(sheet.athlete_name, contact, tuple(_alerts(sheet, known, squads, actor)))


def _guardian_contacts(known: Known, sheet: Sheet) -> Iterator[str]:
    if sheet.is_minor:
        yield from (f"{guardian.name} {guardian.phone}" for guardian, _relation in known.guardians if guardian.phone)


def _alerts(sheet: Sheet, known: Known, squads: Sequence[Squad], actor: Actor) -> Iterator[str]:
    """As on the screen by role; a diagnosis and on whose word are on no paper."""
    if sheet.is_waiting:
        yield _("DO NOT TRAIN: waits for a clearance")
    if known.athlete.health_alert:
        yield known.athlete.health_alert
    for row in known.restrictions:
        what = restriction_text(row) if actor.sees_health else _("the coach knows what")
        yield _("restricted: %(what)s") % {"what": what} + (f" ({row.can_do})" if row.can_do else "")
    yield from (_("hurts: %(what)s") % {"what": pain_text(pain)} for pain in known.pains)
    missing = consents_missing(known.consents, squads)
    if missing and sheet.is_minor:
        yield _("no consent on file: %(what)s") % {"what": ", ".join(str(kind.label) for kind in missing)}


def _tables(sheets: Sequence[Sheet], marked: frozenset[int], *, is_staff: bool) -> tuple[SquadTable, ...]:
    columns = _columns(sheets)
    return tuple(
        SquadTable(some, tuple(_row(sheet, some, sheet.card_id in marked, is_staff=is_staff) for sheet in sheets))
        for first in range(0, len(columns), MOST_COLUMNS)
        if (some := tuple(columns[first : first + MOST_COLUMNS]))
    )


def _columns(sheets: Sequence[Sheet]) -> list[SquadColumn]:
    """Every line of a lettered block on anybody's card, by its label."""
    found: dict[str, SquadColumn] = {}
    for sheet in sheets:
        for group in sheet.blocks:
            for line in (*group.lines, *group.dropped):
                found.setdefault(
                    line.key, SquadColumn(line.key, line.label, line.written_name, words.rounds_text(group))
                )
    return sorted(found.values(), key=lambda column: (column.label[:1], len(column.label), column.label))


def _row(sheet: Sheet, columns: Sequence[SquadColumn], is_marked: bool, *, is_staff: bool) -> SquadRow:
    cells = {line.key: _cell(sheet, group, line, is_staff) for group in sheet.blocks for line in group.lines}
    dropped = _("left out") if is_staff else "–"
    cells |= {line.key: dropped for group in sheet.blocks for line in group.dropped}
    return SquadRow(
        name=sheet.athlete_name,
        is_marked=is_marked,
        instead=(_("DO NOT TRAIN") if is_staff else _("ask the coach")) if sheet.is_waiting else "",
        cells=tuple(cells.get(column.key, "–") for column in columns),
    )


def _cell(sheet: Sheet, group: SheetGroup, line: SheetLine, is_staff: bool) -> str:
    """Load and dose; on the wall no load of an under-18. The name where it is another exercise."""
    hides = sheet.is_minor and not is_staff
    # Words such as "heavy, never grinding" stand on the cards; here there is room for the figure.
    brief = replace(line, load_words="") if line.load is not None else line
    text = words.amount_text(line) if hides else words.plan_text(brief, sheet.athlete_unit)
    if fewer := words.fewer_sets_text(line, group):
        text = f"{text}, {fewer}"
    return f"{line.name}: {text}" if line.is_swapped else text
