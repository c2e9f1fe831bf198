"""A card at its end: what was done against what was planned. Only what was written; nothing is made of it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from typing import Any, cast

from coachhub.cards.sheet import Sheet, SheetEntry, SheetGroup, SheetLine
from coachhub.cards.words import entry_text, plan_text
from coachhub.cards.words_done import cell_text
from coachhub.coaching.facts import Mass
from coachhub.insight.words import runs_text, times_text
from coachhub.library.models import LoadMeaning


@dataclass(frozen=True, slots=True)
class LineSummary:
    """`asked` sets of the plan and how many of those are `done`; `extra` beyond them. `best` where sets differ."""

    key: str
    label: str
    name: str
    written_name: str
    planned: str
    done_text: str
    asked: int
    done: int
    extra: int
    best: str

    @property
    def is_short(self) -> bool:
        return self.done < self.asked


def summary_of(sheet: Sheet) -> tuple[LineSummary, ...]:
    """Return the lines of the lettered blocks, in their order; of what was left out or swapped only what was begun."""
    return tuple(_line(sheet, group, line) for group in sheet.blocks for line in (*group.with_earlier, *_begun(group)))


def _begun(group: SheetGroup) -> list[SheetLine]:
    return [line for line in group.dropped if any(cell.entries for cell in line.cells)]


def _line(sheet: Sheet, group: SheetGroup, line: SheetLine) -> LineSummary:
    asked = _asked(group, line)
    written = [cell for cell in line.cells if cell.entries]
    done = [cell.round for cell in written if any(entry.is_done for entry in cell.entries)]
    texts = [cell_text(line, cell) for cell in written]
    top = best_entry(line)
    return LineSummary(
        key=line.key,
        label=line.label,
        name=line.name,
        written_name=line.written_name,
        planned=times_text(planned_sets(group, line), plan_text(line, sheet.athlete_unit)),
        done_text=runs_text(texts),
        asked=len(asked),
        done=sum(1 for number in done if number in asked),
        extra=sum(1 for number in done if number not in asked),
        best=best_text(line, top) if top and len(set(texts)) > 1 else "",
    )


def _asked(group: SheetGroup, line: SheetLine) -> frozenset[int]:
    """The rounds that the plan asks of this line; one that was done before a swap is asked of what was done then."""
    if group.is_optional:
        return frozenset()
    rounds = range(1, min(line.sets, group.rounds_min) + 1)
    if line in group.earlier:
        return frozenset(number for number in rounds if (cell := line.cell(number)) and cell.entries)
    if line.is_dropped:
        return frozenset()
    return frozenset(number for number in rounds if (cell := line.cell(number)) and (cell.is_open or not cell.before))


def planned_sets(group: SheetGroup, line: SheetLine) -> str:
    """Return "3", or "3–4" where a round more is free."""
    least = min(line.sets, group.rounds_min)
    return str(least) if least == line.sets else f"{least}–{line.sets}"


def best_entry(line: SheetLine) -> SheetEntry | None:
    """Return the best loaded set of the line; None without loads, or where plate numbers stand among masses."""
    written = [entry for cell in line.cells for entry in cell.entries if entry.is_done and entry.fact.load_unit]
    entries = [entry for entry in written if entry.fact.exercise_id == line.exercise_id]
    units = {entry.fact.load_unit == "pl" for entry in entries}
    if len(units) != 1:
        return None
    sign = -1 if line.load_meaning == LoadMeaning.ASSISTANCE else 1
    return max(entries, key=lambda entry: (sign * _kg(entry), entry.fact.reps or 0))


def best_text(line: SheetLine, entry: SheetEntry) -> str:
    hands = "2 × " if line.load_meaning == LoadMeaning.PER_HAND else ""
    return f"{hands}{entry_text(entry)}"


def _kg(entry: SheetEntry) -> Decimal:
    return Mass(cast(Decimal, entry.fact.load_value), cast(Any, entry.fact.load_unit)).kg


def sets_done(lines: Iterable[LineSummary]) -> tuple[int, int]:
    """Return how many of the sets that were asked for are done, and how many were asked for."""
    found = list(lines)
    return sum(line.done for line in found), sum(line.asked for line in found)
