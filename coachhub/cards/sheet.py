"""What phone, desk and paper all show of a card: one frozen object, made by `cards.queries.load_sheets`."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from enum import StrEnum

from coachhub.cards.models import SetEntry
from coachhub.coaching.door import DoorStep
from coachhub.coaching.facts import Mass, Note


class CellState(StrEnum):
    BLANK = "blank"
    PART = "part"
    DONE = "done"
    SKIPPED = "skipped"


@dataclass(frozen=True, slots=True)
class LastTime:
    load: Mass
    reps: int | None
    on_date: date | None


@dataclass(frozen=True, slots=True)
class SheetEntry:
    """The fact that counts for one side of one round; `rivals` were written for it too and do not count."""

    fact: SetEntry
    rivals: tuple[SetEntry, ...]
    quality: str

    @property
    def is_done(self) -> bool:
        return self.fact.kind == "done"


@dataclass(frozen=True, slots=True)
class Cell:
    """One line in one round: what was written, per side. `before`: sides written as another exercise, before a swap."""

    round: int
    sides: tuple[str, ...]
    entries: tuple[SheetEntry, ...]
    before: frozenset[str] = frozenset()

    @property
    def state(self) -> CellState:
        written = self.before | {entry.fact.side for entry in self.entries}
        if not written:
            return CellState.BLANK
        if not self.before and all(not entry.is_done for entry in self.entries):
            return CellState.SKIPPED
        return CellState.DONE if self.is_full(written) else CellState.PART

    def is_full(self, written: Collection[str]) -> bool:
        """Whether these sides are all there is to write in this round."""
        return "both" in written or {"left", "right"} <= set(written) or set(self.sides) <= set(written)

    @property
    def is_open(self) -> bool:
        return self.state in (CellState.BLANK, CellState.PART)


@dataclass(frozen=True, slots=True)
class SheetLine:
    """A card line as planned, with a cell for each of its rounds."""

    pk: int
    key: str
    label: str
    name: str
    written_name: str
    exercise_id: int
    is_dropped: bool
    sets: int
    dose_kind: str
    low: Decimal
    high: Decimal | None
    per: str
    directions: tuple[str, ...]
    measure: str
    laterality: str
    load_meaning: str
    load_rule: str
    load: Mass | None
    load_high: Mass | None
    load_words: str
    rir_half: int | None
    tempo: str
    cue: str
    cues: tuple[str, ...]
    spotting: str
    rest_after_s: int
    ramp_ups: tuple[tuple[Mass, int], ...]
    bar: str
    per_side: tuple[Decimal, ...]
    steps: tuple[Mass, ...]
    last: LastTime | None
    trace: tuple[Note, ...]
    cells: tuple[Cell, ...]
    ramp_plates: tuple[tuple[Decimal, ...], ...] = ()

    @property
    def is_swapped(self) -> bool:
        return self.name != self.written_name

    @property
    def sides(self) -> tuple[str, ...]:
        """The sides that get an entry of their own in each round."""
        return ("left", "right") if self.per == "side" else ("both",)

    @property
    def takes_load(self) -> bool:
        """A load may be lifted here that the plan does not name: there is room to write what was taken."""
        return self.load is None and self.load_meaning != "none"

    @property
    def wants_load(self) -> bool:
        """The plan asks for a load and names none: the athlete has to write what they took."""
        return self.takes_load and self.load_rule != "none"

    def unit_for(self, athlete_unit: str) -> str:
        """The unit a load is written in here: the room's, else the one last seen, else the athlete's own."""
        seen = self.load or (self.steps[0] if self.steps else None) or (self.last.load if self.last else None)
        return seen.unit if seen else athlete_unit

    def cell(self, number: int) -> Cell | None:
        return self.cells[number - 1] if 1 <= number <= len(self.cells) else None


@dataclass(frozen=True, slots=True)
class SheetRound:
    number: int
    is_extra: bool
    is_open: bool
    is_begun: bool


@dataclass(frozen=True, slots=True)
class SheetGroup:
    """A block. `dropped` are lines left out for this athlete, with their reason in the trace.

    `earlier` are lines as they were before a swap, each with the sets that were done then.
    """

    key: str
    label: str
    segment: str
    minutes: int | None
    is_optional: bool
    rounds_min: int
    rounds_max: int
    rest_min_s: int | None
    rest_max_s: int | None
    rest_note: str
    rest_after_s: int | None
    intent: str
    lines: tuple[SheetLine, ...]
    dropped: tuple[SheetLine, ...]
    earlier: tuple[SheetLine, ...] = ()

    @property
    def rounds(self) -> tuple[SheetRound, ...]:
        """Each round; `is_extra` beyond the fewest asked for."""
        return tuple(self._round(number) for number in range(1, self.rounds_max + 1))

    def written_or_planned(self, number: int) -> tuple[SheetLine, ...]:
        """The lines of a round, and those left out or swapped since with sets in it: they can still be put right."""
        gone = (line for line in (*self.earlier, *self.dropped) if (cell := line.cell(number)) and cell.entries)
        planned = (line for line in self.lines if (cell := line.cell(number)) and (cell.entries or not _is_past(cell)))
        return tuple(sorted((*gone, *planned), key=lambda line: (len(line.label), line.label)))

    @property
    def with_earlier(self) -> tuple[SheetLine, ...]:
        """The planned lines, each after what was done in its place before a swap."""
        order = {line.key: place for place, line in enumerate((*self.lines, *self.dropped))}
        return tuple(sorted((*self.earlier, *self.lines), key=lambda line: order[line.key]))

    def as_written(self, line: SheetLine, number: int) -> SheetLine:
        """The line as it was when its set of that round was written: before a swap it was another exercise."""
        cell = line.cell(number)
        if cell is None or not cell.before:
            return line
        found = (one for one in self.earlier if one.key == line.key and (was := one.cell(number)) and was.entries)
        return next(found, line)

    @property
    def current_round(self) -> SheetRound | None:
        return next((r for r in self.rounds if r.is_open and self.lines), None)

    @property
    def rounds_done(self) -> int:
        """Rounds that are written in full; one that no line reaches does not count."""
        return sum(1 for r in self.rounds if not r.is_open and any(line.cell(r.number) for line in self.lines))

    @property
    def is_done(self) -> bool:
        """Every round asked for is written; extra ones and optional blocks may stay blank."""
        return all(not r.is_open for r in self.rounds if not r.is_extra)

    def _round(self, number: int) -> SheetRound:
        cells = [cell for line in self.lines if (cell := line.cell(number))]
        return SheetRound(
            number,
            number > self.rounds_min,
            any(cell.is_open for cell in cells),
            any(cell.entries or cell.before for line in (*self.lines, *self.dropped) if (cell := line.cell(number))),
        )


def _is_past(cell: Cell) -> bool:
    """Whether all of it was written as another exercise."""
    return bool(cell.before) and not cell.is_open


@dataclass(frozen=True, slots=True)
class RevisionInfo:
    """`steps`: what was changed at the door, where that made it (or was undone by it)."""

    number: int
    reason: str
    made_at: datetime
    steps: tuple[DoorStep, ...] = ()


@dataclass(frozen=True, slots=True)
class Sheet:
    """One athlete's card for one session. `flags`: red flags not cleared, so the card waits."""

    card_id: int
    assignment_id: int
    athlete_id: int
    athlete_name: str
    athlete_unit: str
    is_minor: bool
    is_rir_taught: bool
    session_name: str
    plan_name: str
    squad_name: str
    venue_name: str
    is_supervised: bool
    on_date: date
    week: int
    revision: RevisionInfo
    is_stale: bool
    is_started: bool
    flags: tuple[str, ...]
    is_absent: bool
    next_seq: int
    last_entry_id: int
    last_received_at: datetime | None
    groups: tuple[SheetGroup, ...]

    @property
    def is_waiting(self) -> bool:
        return bool(self.flags)

    @property
    def blocks(self) -> tuple[SheetGroup, ...]:
        """The lettered blocks, which are logged by round."""
        return tuple(group for group in self.groups if group.label)

    @property
    def preparation(self) -> tuple[SheetGroup, ...]:
        """What comes before the lettered blocks."""
        before = []
        for group in self.groups:
            if group.label:
                break
            before.append(group)
        return tuple(before)

    @property
    def afterwards(self) -> tuple[SheetGroup, ...]:
        """Unlettered parts after the first block, such as a cool-down."""
        return tuple(g for g in self.groups[len(self.preparation) :] if not g.label)

    @property
    def lines(self) -> tuple[SheetLine, ...]:
        return tuple(line for group in self.groups for line in group.lines)

    @property
    def needs_spotter(self) -> bool:
        return any(line.spotting in ("head", "safety_arms", "wrists", "partner") for line in self.lines)

    def line(self, key: str) -> SheetLine | None:
        return next((line for line in self.lines if line.key == key), None)

    def group(self, key: str) -> SheetGroup | None:
        return next((group for group in self.groups if group.key == key), None)
