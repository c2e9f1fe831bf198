"""The boxes of a printed line: a tick means as planned, what differs is written in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Final

from django.utils.translation import gettext as _
from django.utils.translation import pgettext

from coachhub.cards.models import SetEntry
from coachhub.cards.sheet import Cell, SheetEntry, SheetLine
from coachhub.cards.words import number

# So many rounds stand beside the exercise, so many where the sides are apart; more stand in strips below it.
MOST_BESIDE: Final = 6
MOST_BESIDE_BY_SIDE: Final = 4
LONGEST_STRIP: Final = 8
LONGEST_STRIP_BY_SIDE: Final = 6
_UNITS: Final = {"time": "s", "hold": "s", "distance": "m"}


@dataclass(frozen=True, slots=True)
class Box:
    """`state`: plan (printed faint), blank (its load is to be written in), done, skipped, none (no such round).

    `span` 1 is one side of a round.
    """

    state: str
    figures: tuple[str, ...]
    span: int
    round: int

    @property
    def text(self) -> str:
        """Load and amount break apart, if at all, between the two; in half a box also at each space of the load."""
        figures = [figure.replace(" ", "\N{NO-BREAK SPACE}") for figure in self.figures]
        if self.span == 1:
            figures[:-1] = self.figures[:-1]
        return ("\n" if self.state == "blank" else " ").join(figures)


def has_sides(lines: Iterable[SheetLine]) -> bool:
    """Whether left and right have boxes of their own."""
    return any(len(line.sides) > 1 for line in lines)


def is_wide(lines: Iterable[SheetLine], rounds: int, *, is_signed: bool = False) -> bool:
    """Whether the boxes of a block need rows of their own; `is_signed`: one for the coach's initials takes room."""
    return rounds > (MOST_BESIDE_BY_SIDE if has_sides(lines) else MOST_BESIDE - is_signed)


def strip_length(lines: Iterable[SheetLine], rounds: int) -> int:
    """Rounds in each strip: as few strips as can be, and alike: 10 -> 5, 5."""
    longest = LONGEST_STRIP_BY_SIDE if has_sides(lines) else LONGEST_STRIP
    return -(-rounds // -(-rounds // longest))


def strips_of(line: SheetLine, rounds: int, length: int, reader_unit: str) -> tuple[tuple[Box, ...], ...]:
    """The boxes in rows of `length` rounds, the last row filled up with empty ones."""
    return tuple(
        tuple(box for n in range(first, first + length) for box in _round_boxes(line, n, reader_unit))
        for first in range(1, rounds + 1, length)
    )


def _round_boxes(line: SheetLine, n: int, reader_unit: str) -> tuple[Box, ...]:
    cell = line.cell(n)
    if cell is None or _is_of_another(line, cell):
        return (Box("none", (), 2, n),)
    together = next((e for e in cell.entries if e.fact.side == "both"), None)
    if together or len(cell.sides) == 1:
        return (_box(line, cell, "both", together, reader_unit),)
    by_side = {entry.fact.side: entry for entry in cell.entries}
    return tuple(_box(line, cell, side, by_side.get(side), reader_unit) for side in cell.sides)


def _is_of_another(line: SheetLine, cell: Cell) -> bool:
    """Whether this round was done as another exercise before a swap, or after it."""
    return not cell.entries and (line.is_dropped or (bool(cell.before) and not cell.is_open))


def _box(line: SheetLine, cell: Cell, side: str, entry: SheetEntry | None, reader_unit: str) -> Box:
    span = 2 if side == "both" else 1
    if entry is None:
        state = "blank" if line.takes_load else "plan"
        figures = plan_figures(line, reader_unit, is_narrow=span == 1)
    elif not entry.is_done:
        state, figures = "skipped", (_("skipped") if span == 2 else "–",)
    else:
        state, figures = "done", done_figures(line, entry, reader_unit)
    return Box(state, _with_side(_side_letter(side), figures), span, cell.round)


def _side_letter(side: str) -> str:
    return {"left": pgettext("side", "L"), "right": pgettext("side", "R")}.get(side, "")


def _with_side(letter: str, figures: tuple[str, ...]) -> tuple[str, ...]:
    return (f"{letter} {figures[0]}", *figures[1:]) if letter and figures else figures


def plan_figures(line: SheetLine, reader_unit: str, *, is_narrow: bool = False) -> tuple[str, ...]:
    """Return load and amount as short as they can be read: ("62.5", "× 5"), ("30 s",), ("____ kg", "× 8").

    A load in another unit than the reader's says so: ("62.5 kg", "× 5"). A narrow box, one side's, leaves the unit of
    the amount to the line beside it.
    """
    amount = number(line.low) + (f"–{number(line.high)}" if line.high is not None else "")
    unit = "" if is_narrow else _UNITS.get(line.dose_kind, "")
    amount = f"{amount} {unit}" if unit else amount
    load = _load_figure(line, reader_unit)
    return (load, f"× {amount}") if load else (amount,)


def _load_figure(line: SheetLine, reader_unit: str) -> str:
    if line.load is not None:
        high = f"–{number(line.load_high.value)}" if line.load_high else ""
        return f"{number(line.load.value)}{high}{_other_unit(line.load.unit, reader_unit)}"
    return f"____ {line.unit_for(reader_unit)}" if line.takes_load else ""


def _other_unit(unit: str, reader_unit: str) -> str:
    """A bare figure is taken for the reader's own unit, so any other one is named."""
    return "" if unit == reader_unit else f" {unit}"


def done_figures(line: SheetLine, entry: SheetEntry, reader_unit: str) -> tuple[str, ...]:
    """Return what was done: ("62.5", "× 5"); the unit too where it is not the reader's, or not the planned one."""
    fact = entry.fact
    unit = _other_unit(fact.load_unit, reader_unit if line.load and line.load.unit == fact.load_unit else "")
    load = f"{number(fact.load_value)}{unit}" if fact.load_value is not None else ""
    amount = ", ".join(_amounts(fact))
    return (load, f"× {amount}") if load else (amount,)


def _amounts(fact: SetEntry) -> Iterator[str]:
    if fact.reps is not None:
        yield str(fact.reps)
    if fact.time_s is not None:
        yield f"{fact.time_s} s"
    if fact.distance_m is not None:
        yield f"{number(fact.distance_m)} m"
    if fact.height_cm is not None:
        yield f"{number(fact.height_cm)} cm"
