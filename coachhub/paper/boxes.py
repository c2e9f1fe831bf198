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
from coachhub.coaching.facts import Mass

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
        """Load and amount break apart, if at all, between the two."""
        between = "\n" if self.state == "blank" else " "
        return between.join(figure.replace(" ", "\N{NO-BREAK SPACE}") for figure in self.figures)


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


def strips_of(line: SheetLine, rounds: int, length: int) -> tuple[tuple[Box, ...], ...]:
    """The boxes in rows of `length` rounds, the last row filled up with empty ones."""
    return tuple(
        tuple(box for n in range(first, first + length) for box in _round_boxes(line, n))
        for first in range(1, rounds + 1, length)
    )


def _round_boxes(line: SheetLine, n: int) -> tuple[Box, ...]:
    cell = line.cell(n)
    if cell is None:
        return (Box("none", (), 2, n),)
    together = next((e for e in cell.entries if e.fact.side == "both"), None)
    if together or len(cell.sides) == 1:
        return (_box(line, cell, "both", together, 2),)
    by_side = {entry.fact.side: entry for entry in cell.entries}
    return tuple(_box(line, cell, side, by_side.get(side), 1) for side in cell.sides)


def _box(line: SheetLine, cell: Cell, side: str, entry: SheetEntry | None, span: int) -> Box:
    letter = _side_letter(side)
    if entry is None:
        state = "blank" if line.takes_load else "plan"
        return Box(state, _with_side(letter, plan_figures(line, is_narrow=span == 1)), span, cell.round)
    if not entry.is_done:
        return Box("skipped", _with_side(letter, (_("skipped") if span == 2 else "–",)), span, cell.round)
    return Box("done", _with_side(letter, done_figures(line, entry)), span, cell.round)


def _side_letter(side: str) -> str:
    return {"left": pgettext("side", "L"), "right": pgettext("side", "R")}.get(side, "")


def _with_side(letter: str, figures: tuple[str, ...]) -> tuple[str, ...]:
    return (f"{letter} {figures[0]}", *figures[1:]) if letter and figures else figures


def plan_figures(line: SheetLine, *, is_narrow: bool = False) -> tuple[str, ...]:
    """Return load and amount as short as they can be read: ("62.5", "× 5"), ("30 s",), ("____ kg", "× 8").

    A narrow box, one side's, leaves the unit of the amount to the line beside it.
    """
    amount = number(line.low) + (f"–{number(line.high)}" if line.high is not None else "")
    unit = "" if is_narrow else _UNITS.get(line.dose_kind, "")
    amount = f"{amount} {unit}" if unit else amount
    load = _load_figure(line)
    return (load, f"× {amount}") if load else (amount,)


def _load_figure(line: SheetLine) -> str:
    if line.load is not None:
        high = f"–{number(line.load_high.value)}" if line.load_high else ""
        return f"{number(line.load.value)}{high}"
    return _blank_unit(line.steps) if line.takes_load else ""


def _blank_unit(steps: tuple[Mass, ...]) -> str:
    """The room to write a load in, with the unit of what stands here."""
    return f"____ {steps[0].unit}" if steps else "____"


def done_figures(line: SheetLine, entry: SheetEntry) -> tuple[str, ...]:
    """Return what was done: ("62.5", "× 5"); the unit too where it is not the planned one."""
    fact = entry.fact
    unit = "" if line.load and fact.load_unit == line.load.unit else f" {fact.load_unit}"
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
