"""Quick entry: paper cards typed in, a box for each set."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from django.core.paginator import Page, Paginator
from django.urls import reverse
from django.utils.http import urlencode
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.cards import queries
from coachhub.cards.forms_quick import QuickForm, SetBox, all_lines, cards_sent
from coachhub.cards.models import Assignment, Card
from coachhub.cards.sheet import Sheet, SheetGroup, SheetLine
from coachhub.cards.words import segment_text
from coachhub.cards.words_done import unit_word
from coachhub.desk.pages.cards_assignment import find_assignment
from coachhub.desk.pages.cards_floor import block_title

# As many as a browser and a person can take on one page; and fewer than a form may have fields.
MOST_BOXES: Final = 600


@dataclass(frozen=True, slots=True)
class Tab:
    """A block, or all of them, to type in."""

    title: str
    url: str
    is_current: bool


@dataclass(frozen=True, slots=True)
class Column:
    key: str
    label: str
    name: str
    asks: str


@dataclass(frozen=True, slots=True)
class BoxCell:
    """`box` None where the line has no such round."""

    box: SetBox | None
    label: str


@dataclass(frozen=True, slots=True)
class RoundRow:
    number: int
    cells: tuple[BoxCell, ...]


@dataclass(frozen=True, slots=True)
class AthleteRows:
    """`remarks`: what is other on this card than the heads of the columns say."""

    sheet: Sheet
    remarks: tuple[str, ...]
    rows: tuple[RoundRow, ...]


@dataclass(frozen=True, slots=True)
class QuickPage:
    """`first`: the box to begin in."""

    row: Assignment
    tabs: tuple[Tab, ...]
    columns: tuple[Column, ...]
    athletes: tuple[AthleteRows, ...]
    pager: Page[Sheet] | None
    form: QuickForm
    first: str
    is_sent: bool

    @property
    def is_sending_wrong(self) -> bool:
        return self.is_sent and not self.form.sending.is_valid()


@dataclass(frozen=True, slots=True)
class Desk:
    """What is on the desk: whose cards, and which of their lines."""

    row: Assignment
    sheets: tuple[Sheet, ...]
    chosen: str
    parts: dict[str, str]
    pager: Page[Sheet] | None

    @property
    def keys(self) -> dict[str, SheetLine]:
        """The lines to type in, each as the coach wrote it where anybody's card still has that."""
        found: dict[str, SheetLine] = {}
        for line in (
            line for sheet in self.sheets for group in groups_of(sheet, self.chosen) for line in ordered(group)
        ):
            if line.key not in found or (found[line.key].is_swapped and not line.is_swapped):
                found[line.key] = line
        return found


def find_desk(actor: Actor, pk: int, asked: Mapping[str, str], sent: Mapping[str, str]) -> Desk:
    """What the address asks for; after a sending the cards that were sent, as the page showed them."""
    row, revisions = find_assignment(actor, pk), cards_sent(sent)
    cards = Card.objects.visible_to(actor).filter(assignment=row)
    sheets = queries.load_sheets(cards.filter(pk__in=revisions) if revisions else cards)
    sheets = [queries.as_seen(sheet, revisions.get(sheet.card_id, sheet.revision.number)) for sheet in sheets]
    parts = parts_of(sheets)
    chosen = asked.get("part", "") if asked.get("part", "") in parts else ""
    if revisions:
        return Desk(row, tuple(sheets), chosen, parts, None)
    pager = Paginator(sheets, most_cards(sheets, chosen)).get_page(asked.get("page"))
    return Desk(row, tuple(pager.object_list), chosen, parts, pager if pager.has_other_pages() else None)


def cards_of(actor: Actor, desk: Desk, keys: Iterable[int]) -> dict[int, Card]:
    cards = Card.objects.visible_to(actor).filter(assignment=desk.row, pk__in=keys)
    return {card.pk: card for card in cards.select_related("assignment")}


def quick_page(desk: Desk, form: QuickForm, *, is_sent: bool) -> QuickPage:
    lines = desk.keys
    columns = tuple(Column(key, line.label, line.written_name, asks(line, desk.sheets)) for key, line in lines.items())
    wrong = form.wrong or [box for box in form.boxes.values() if not box.value]
    return QuickPage(
        row=desk.row,
        tabs=tuple(tab(desk, key, title) for key, title in {"": _("All blocks"), **desk.parts}.items()),
        columns=columns,
        athletes=tuple(athlete_rows(sheet, columns, form) for sheet in desk.sheets),
        pager=desk.pager,
        form=form,
        first=wrong[0].name if wrong else "",
        is_sent=is_sent,
    )


def tab(desk: Desk, key: str, title: str) -> Tab:
    return Tab(title, quick_url(desk.row.pk, part=key), key == desk.chosen)


def quick_url(pk: int, **asked: str) -> str:
    query = urlencode({name: value for name, value in asked.items() if value})
    return reverse("desk:quick_entry", kwargs={"pk": pk}) + (f"?{query}" if query else "")


def parts_of(sheets: Sequence[Sheet]) -> dict[str, str]:
    """Every part on anybody's card, in order, with its title."""
    found: dict[str, str] = {}
    for sheet in sheets:
        for group in sheet.groups:
            found.setdefault(group.key, block_title(group.label) if group.label else segment_text(group))
    return found


def groups_of(sheet: Sheet, chosen: str) -> list[SheetGroup]:
    """The part that was asked for; without one the lettered blocks, or all where there are none."""
    if chosen:
        return [group for group in sheet.groups if group.key == chosen]
    return list(sheet.blocks or sheet.groups)


def ordered(group: SheetGroup) -> list[SheetLine]:
    """With those left out, where they stood."""
    return sorted((*group.lines, *group.dropped), key=lambda line: (len(line.label), line.label))


def most_cards(sheets: Sequence[Sheet], chosen: str) -> int:
    """How many cards fit a page."""
    sizes = [sum(line.sets for group in groups_of(sheet, chosen) for line in ordered(group)) for sheet in sheets]
    return max(1, MOST_BOXES // max([1, *sizes]))


def asks(line: SheetLine, sheets: Sequence[Sheet]) -> str:
    """What is counted: "kg × reps", "reps, each side", "s"."""
    units = dict.fromkeys(
        one.unit_for(sheet.athlete_unit)
        for sheet in sheets
        for one in all_lines(sheet)
        if one.key == line.key and one.load_meaning != "none"
    )
    amount = str(unit_word(line))
    told = f"{' / '.join(units)} × {amount}" if units else amount
    return _("%(what)s, each side") % {"what": told} if line.per == "side" else told


def athlete_rows(sheet: Sheet, columns: Sequence[Column], form: QuickForm) -> AthleteRows:
    own = {line.key: line for line in all_lines(sheet)}
    mine = [(column, own[column.key]) for column in columns if column.key in own]
    rounds = max((line.sets for _column, line in mine), default=0)
    return AthleteRows(
        sheet=sheet,
        remarks=(
            *(remark for column, line in mine if (remark := remark_of(column, line))),
            *(earlier_remark(line) for group in sheet.groups for line in group.earlier if line.key in own),
        ),
        rows=tuple(
            RoundRow(number, tuple(box_cell(sheet, column, own.get(column.key), number, form) for column in columns))
            for number in range(1, rounds + 1)
        ),
    )


def remark_of(column: Column, line: SheetLine) -> str:
    if line.is_dropped:
        return _("%(label)s left out") % {"label": line.label}
    return f"{line.label} {line.name}" if line.name != column.name else ""


def earlier_remark(line: SheetLine) -> str:
    """What was done before a swap: its boxes stay with that exercise."""
    numbers = ", ".join(str(cell.round) for cell in line.cells if cell.entries)
    return _("%(line)s in round %(numbers)s") % {"line": f"{line.label} {line.name}", "numbers": numbers}


def box_cell(sheet: Sheet, column: Column, line: SheetLine | None, number: int, form: QuickForm) -> BoxCell:
    box = form.boxes.get((sheet.card_id, column.key, number)) if line else None
    if box is None or line is None:
        return BoxCell(None, "")
    told: dict[str, Any] = {"name": sheet.athlete_name, "line": f"{box.line.label} {box.line.name}", "number": number}
    return BoxCell(box, _("%(name)s, round %(number)s, %(line)s") % told)
