"""The floor: a squad's rows by blocks, and above them whatever could hurt somebody."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeVar
from uuid import uuid4

from django.http import Http404
from django.urls import reverse
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.base.text import tel_address
from coachhub.cards import queries
from coachhub.cards.models import SetQuality
from coachhub.cards.words import entry_text, mass_text, number, red_flag_text
from coachhub.cards.words_health import pain_text
from coachhub.desk.pages.cards_today import FlagLine, PainLine
from coachhub.people.access import sees_emergency
from coachhub.people.models import Athlete, PainReport, RedFlag

Report = TypeVar("Report", RedFlag, PainReport)


@dataclass(frozen=True, slots=True)
class SetWords:
    label: str
    name: str
    text: str
    number: int

    @property
    def short(self) -> str:
        return f"{self.label}: {self.text}"


@dataclass(frozen=True, slots=True)
class BlockCell:
    """One athlete in one block, as text: a floor has hundreds of these.

    `mark`: what a button for clean or shaky sends, before the word itself; empty before the first set.
    """

    title: str
    progress: str
    is_done: bool
    last: str
    is_far: bool
    quality: str
    is_restricted: bool
    versions: tuple[str, ...]
    mark: str
    mark_label: str


@dataclass(frozen=True, slots=True)
class Contact:
    """`tel`: the address that calls; empty where no number is noted."""

    text: str
    tel: str


@dataclass(frozen=True, slots=True)
class FloorLine:
    """A cell is None where this athlete has no such block. `contacts`: whom to call in an emergency."""

    row: queries.FloorRow
    card_id: str
    name: str
    cells: tuple[BlockCell | None, ...]
    waits: bool
    hurts: bool
    contacts: tuple[Contact, ...]
    station: str


@dataclass(frozen=True, slots=True)
class FlaggedSet:
    """A set that was done although something stood against it."""

    athlete: Athlete
    card_id: int
    words: SetWords


@dataclass(frozen=True, slots=True)
class FloorPage:
    head: queries.FloorHead
    token: str
    titles: tuple[str, ...]
    rounds: dict[str, int]
    lines: tuple[FloorLine, ...]
    flags: tuple[FlagLine, ...]
    pains: tuple[PainLine, ...]
    flagged: tuple[FlaggedSet, ...]
    may_log: bool
    may_clear: bool
    may_write: bool
    sees_emergency: bool
    door_url: str
    late_url: str

    @classmethod
    def of(cls, actor: Actor, pulse: queries.Pulse) -> FloorPage:
        head, rows = queries.load_floor(actor, pulse.assignment_id)
        athletes = {row.athlete.pk: row.athlete for row in rows}
        flags, pains = queries.flags_and_pains(athletes)
        rounds, stations = rounds_by_block(rows), stations_of(rows)
        return cls(
            head=head,
            token=pulse.token,
            titles=tuple(map(block_title, rounds)),
            rounds=rounds,
            lines=tuple(floor_line(row, tuple(rounds), flags, pains, stations) for row in rows),
            flags=tuple(FlagLine(_known(flag, athletes), red_flag_text(flag.kind)) for flag in flags),
            pains=tuple(PainLine(_known(pain, athletes), pain_text(pain)) for pain in pains),
            flagged=tuple(FlaggedSet(row.athlete, row.card_id, set_words(one)) for row in rows for one in row.flagged),
            may_log=actor.may_log,
            may_clear=actor.sees_health,
            may_write=actor.may_write,
            sees_emergency=sees_emergency(actor),
            door_url=reverse("desk:door", kwargs={"pk": pulse.assignment_id}),
            late_url=reverse("desk:floor_late", kwargs={"pk": pulse.assignment_id}),
        )

    @property
    def begun(self) -> int:
        return sum(1 for line in self.lines if line.row.is_begun)

    @property
    def next_round(self) -> dict[str, object]:
        """The block and round that most of those present are in: what one tap for all would write."""
        present = [line for line in self.lines if not line.row.is_absent and not line.waits]
        for label, rounds in self.rounds.items():
            done = sorted(cell.rounds_done for line in present for cell in line.row.cells if cell.label == label)
            if done and (middle := done[len(done) // 2]) < rounds:
                return {"uuid": uuid4(), "label": label, "number": middle + 1}
        return {"uuid": uuid4(), "label": next(iter(self.rounds), ""), "number": 1}


def find_pulse(actor: Actor, pk: int) -> queries.Pulse:
    """Http404 for an assignment that the actor does not see."""
    found = queries.read_pulse(actor, pk)
    if found is None:
        raise Http404
    return found


def _known(report: Report, athletes: dict[int, Athlete]) -> Report:
    """With the athlete who is at hand already."""
    report.athlete = athletes[report.athlete_id]
    return report


def rounds_by_block(rows: Sequence[queries.FloorRow]) -> dict[str, int]:
    """Return every block letter on anybody's card, in order, with its most rounds."""
    found: dict[str, int] = {}
    for row in rows:
        for cell in row.cells:
            found[cell.label] = max(found.get(cell.label, 0), cell.rounds_max)
    return dict(sorted(found.items()))


def floor_line(
    row: queries.FloorRow,
    blocks: Sequence[str],
    flags: Collection[RedFlag],
    pains: Collection[PainReport],
    stations: Mapping[int, Sequence[str]],
) -> FloorLine:
    cells = {cell.label: cell for cell in row.cells}
    return FloorLine(
        row=row,
        card_id=str(row.card_id),
        name=row.athlete.name,
        cells=tuple(block_cell(cells[label], row) if label in cells else None for label in blocks),
        waits=any(flag.athlete_id == row.athlete.pk for flag in flags),
        hurts=any(pain.athlete_id == row.athlete.pk for pain in pains),
        contacts=contacts_of(row),
        station=station_text(row, stations),
    )


def contacts_of(row: queries.FloorRow) -> tuple[Contact, ...]:
    """Whoever is noted for an emergency, then the guardian, unless that is the same number."""
    noted, guardian = (Contact(text, tel_address(text)) for text in (row.athlete.emergency_contact, row.guardian))
    is_other = bool(guardian.text) and guardian.tel != noted.tel
    return (*([noted] if noted.text else []), *([guardian] if is_other else []))


def stations_of(rows: Sequence[queries.FloorRow]) -> dict[int, list[str]]:
    """Return the names at each station; who is absent leaves their place."""
    found: dict[int, list[str]] = {}
    for row in rows:
        if row.station is not None and not row.is_absent:
            found.setdefault(row.station, []).append(row.athlete.name)
    return found


def station_text(row: queries.FloorRow, stations: Mapping[int, Sequence[str]]) -> str:
    """Return "Station 2, with Petra Vane"; empty without one."""
    if row.station is None:
        return ""
    others = [name for name in stations.get(row.station, ()) if name != row.athlete.name]
    told = {"n": row.station, "names": ", ".join(others)}
    return _("Station %(n)s, with %(names)s") % told if others else _("Station %(n)s, alone") % told


def block_cell(cell: queries.FloorCell, row: queries.FloorRow) -> BlockCell:
    return BlockCell(
        title=block_title(cell.label),
        progress=f"{cell.rounds_done}/{cell.rounds_min}",
        is_done=cell.is_done,
        last=last_text(cell),
        is_far=cell.differing is not None and cell.differing.is_far,
        quality=str(SetQuality(cell.quality).label) if cell.quality else "",
        is_restricted=any(one.label.startswith(cell.label) for one in row.flagged),
        versions=tuple(versions_text(rivals) for rivals in cell.contested),
        mark=f"{row.card_id} {cell.group_key} {cell.marked} " if cell.marked else "",
        mark_label=mark_label(cell) if cell.marked else "",
    )


def last_text(cell: queries.FloorCell) -> str:
    """Return "B1: 375 kg × 5, planned 37.5 kg; B2: 10": what differs from the plan, then the last set."""
    if cell.last is None:
        return ""
    last, differing = set_words(cell.last).short, cell.differing
    if differing is None:
        return last
    told = set_words(differing)
    if differing.fact.round != cell.last.fact.round:
        return f"{round_title(told.label, told.number)} {told.text}; {last}"
    return told.short if differing.fact.pk == cell.last.fact.pk else f"{told.short}; {last}"


def mark_label(cell: queries.FloorCell) -> str:
    """Return "B, round 1: B1 375 kg × 5, planned 37.5 kg; B2 10": what a mark would vouch for."""
    sets = "; ".join(f"{words.label} {words.text}" for words in map(set_words, cell.marked_sets))
    return f"{round_title(cell.label, cell.marked)} {sets}"


def block_title(label: str) -> str:
    return _("Block %(label)s") % {"label": label}


def round_title(label: str, number: int) -> str:
    return _("%(label)s, round %(number)s:") % {"label": label, "number": number}


def versions_text(rivals: Sequence[queries.FloorSet]) -> str:
    """ "A1, round 3: 50 kg × 5 counts; also written: 55 kg × 5." """
    first, *others = map(set_words, rivals)
    told = {"text": first.text, "others": ", ".join(other.text for other in others)}
    return f"{round_title(first.label, first.number)} {_('%(text)s counts; also written: %(others)s.') % told}"


def set_words(one: queries.FloorSet) -> SetWords:
    text = entry_text(one.fact)
    if one.planned:
        low, high = one.planned[0], one.planned[-1]
        span = mass_text(low) if low == high else f"{number(low.value)}–{mass_text(high)}"
        text = _("%(done)s, planned %(load)s") % {"done": text, "load": span}
    return SetWords(one.label, one.name, text, one.fact.round)


def floor_url(pk: int, card_pk: int | None = None) -> str:
    """The floor page, at one athlete's row."""
    url = reverse("desk:floor", kwargs={"pk": pk})
    return f"{url}#card-{card_pk}" if card_pk else url
