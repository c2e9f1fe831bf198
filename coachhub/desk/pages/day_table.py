"""A session as one table: who did what of which line, against the plan, and how hard it was."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from decimal import Decimal
from typing import Any, Final, cast

from django.db.models import QuerySet
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from coachhub.base.actor import Actor
from coachhub.cards.models import Assignment, Card
from coachhub.cards.queries import load_sheets
from coachhub.cards.sheet import Sheet
from coachhub.coaching.facts import Mass
from coachhub.desk.pages.cards_assignment import find_assignment
from coachhub.insight.queries import with_effort
from coachhub.insight.summary import LineSummary, best_entry, best_text, sets_done, summary_of

BY_NAME: Final = "name"
SORTS: Final[dict[str, str | Promise]] = {
    BY_NAME: _("Athlete"),
    "done": _("Sets done"),
    "effort": _("Effort"),
    "minutes": _("Minutes"),
}


@dataclass(frozen=True, slots=True)
class DayCell:
    """One athlete's line; `name` where it is not the column's exercise. `before`: what was done before a swap."""

    line: LineSummary
    before: tuple[LineSummary, ...]
    name: str
    best: str
    best_kg: Decimal | None


@dataclass(frozen=True, slots=True)
class DayRow:
    card_id: int
    name: str
    is_absent: bool
    done: int
    asked: int
    effort: int | None
    minutes: int | None
    cells: tuple[DayCell | None, ...]


@dataclass(frozen=True, slots=True)
class Column:
    """A line of the session: `key` is what its heading sorts by."""

    key: str
    label: str
    name: str


@dataclass(frozen=True, slots=True)
class DayTable:
    row: Assignment
    sort: str
    columns: tuple[Column, ...]
    rows: tuple[DayRow, ...]

    @classmethod
    def of(cls, actor: Actor, pk: int, sort: str = "") -> DayTable:
        cards = {card.pk: card for card in cards_of(actor, pk)}
        assignment = next((card.assignment for card in cards.values()), None) or find_assignment(actor, pk)
        sheets = load_sheets(Card.objects.filter(pk__in=cards))
        lines = {sheet.card_id: summary_of(sheet) for sheet in sheets}
        columns = columns_of(lines.values())
        rows = [day_row(sheet, lines[sheet.card_id], cards[sheet.card_id], columns) for sheet in sheets]
        chosen = sort if sort in SORTS or sort in {column.key for column in columns} else BY_NAME
        return cls(assignment, chosen, columns, tuple(sorted(rows, key=order_by(chosen, columns))))

    @property
    def heads(self) -> tuple[tuple[str, str | Promise], ...]:
        return tuple(SORTS.items())


def cards_of(actor: Actor, pk: int) -> QuerySet[Card]:
    """Cards that the actor sees of a live assignment that they see."""
    seen = Assignment.objects.visible_to(actor).live().filter(pk=pk)
    cards = Card.objects.visible_to(actor).filter(assignment__in=seen)
    return with_effort(cards).select_related("assignment__session", "assignment__squad", "assignment__venue")


def columns_of(cards: Iterable[tuple[LineSummary, ...]]) -> tuple[Column, ...]:
    """Return the lines of all cards by their labels, each under the exercise that was written."""
    names: dict[tuple[str, str], Counter[str]] = {}
    for lines in cards:
        for line in lines:
            names.setdefault((line.label, line.key), Counter())[line.written_name] += 1
    return tuple(Column(key, label, names[label, key].most_common(1)[0][0]) for label, key in sorted(names, key=_place))


def _place(found: tuple[str, str]) -> tuple[str, int]:
    """A2 before A10, B after both."""
    label = found[0]
    digits = "".join(sign for sign in label if sign.isdecimal())
    return label.rstrip("0123456789"), int(digits or 0)


def day_row(sheet: Sheet, lines: tuple[LineSummary, ...], card: Any, columns: tuple[Column, ...]) -> DayRow:
    """`card` with its effort and minutes."""
    by_key: dict[str, list[LineSummary]] = {}
    for line in lines:
        by_key.setdefault(line.key, []).append(line)
    done, asked = sets_done(lines)
    return DayRow(
        card_id=sheet.card_id,
        name=sheet.athlete_name,
        is_absent=sheet.is_absent,
        done=done,
        asked=asked,
        effort=card.effort,
        minutes=card.minutes,
        cells=tuple(
            day_cell(sheet, by_key[column.key], column) if column.key in by_key else None for column in columns
        ),
    )


def day_cell(sheet: Sheet, told: list[LineSummary], column: Column) -> DayCell:
    *before, line = told
    lines = (one for group in sheet.groups for one in (*group.lines, *group.dropped))
    planned = next(one for one in lines if one.key == line.key)
    best = best_entry(planned)
    kg = None if best is None else Mass(cast(Decimal, best.fact.load_value), cast(Any, best.fact.load_unit)).kg
    name = "" if line.name == column.name else line.name
    return DayCell(line, tuple(before), name, best_text(planned, best) if best else "", kg)


Key = Callable[[DayRow], tuple[bool, Decimal | int]]


def order_by(sort: str, columns: tuple[Column, ...]) -> Key:
    """The most first, those without a figure last; equals stay in the order of names, which they come in."""

    def key(row: DayRow) -> tuple[bool, Decimal | int]:
        figure = figure_of(row, sort, columns)
        return figure is None, 0 if figure is None else -figure

    return key


def figure_of(row: DayRow, sort: str, columns: tuple[Column, ...]) -> Decimal | int | None:
    if sort == BY_NAME:
        return 0
    if sort == "done":
        return row.done
    if sort in ("effort", "minutes"):
        return cast("int | None", getattr(row, sort))
    cell = next(cell for column, cell in zip(columns, row.cells, strict=True) if column.key == sort)
    return cell.best_kg if cell else None
