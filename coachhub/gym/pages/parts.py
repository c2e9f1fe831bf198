"""The parts without a letter: warm-up, activation and athleticism before the blocks, cool-down after them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from django.utils.translation import gettext as _

from coachhub.cards import words
from coachhub.cards.sheet import Sheet, SheetGroup, SheetLine
from coachhub.gym.pages.lines import LeftOut, LineView, Why, whys_of


@dataclass(frozen=True, slots=True)
class PartGroup:
    key: str
    told: str
    rounds: tuple[int, ...]
    lines: tuple[LineView, ...]


@dataclass(frozen=True, slots=True)
class PartView:
    """One part, with everything in it done by one tap."""

    name: str
    minutes: int | None
    groups: tuple[PartGroup, ...]
    left_out: tuple[LeftOut, ...]
    whys: tuple[Why, ...]
    is_done: bool
    is_empty: bool


def parts_of(sheet: Sheet, groups: Sequence[SheetGroup]) -> tuple[PartView, ...]:
    return tuple(part_of(sheet, list(found)) for _name, found in groupby(groups, key=words.segment_text))


def part_of(sheet: Sheet, groups: list[SheetGroup]) -> PartView:
    lines = [line for group in groups for line in group.lines]
    # A part that is optional as a whole ("if time") is done only once it was done.
    needed = [group for group in groups if not group.is_optional] or groups
    return PartView(
        name=words.segment_text(groups[0]),
        minutes=groups[0].minutes,
        groups=tuple(group_of(sheet, group) for group in groups),
        left_out=tuple(LeftOut.of(line) for group in groups for line in group.dropped),
        whys=whys_of(line for line in lines if line.is_swapped or line.load),
        is_done=all(not cell.is_open for group in needed for line in group.lines for cell in line.cells),
        is_empty=not lines,
    )


def group_of(sheet: Sheet, group: SheetGroup) -> PartGroup:
    rounds = tuple(r.number for r in group.rounds if group.written_or_planned(r.number))
    lines = (group.as_written(line, line.sets) for line in group.lines)
    return PartGroup(group.key, told_of(group), rounds, tuple(line_of(sheet, group, line) for line in lines))


def line_of(sheet: Sheet, group: SheetGroup, line: SheetLine) -> LineView:
    """Ticked once every set of it is written: here a tick is for the whole line, not for a round."""
    last_open = next((cell.round for cell in line.cells if cell.is_open), line.sets)
    return LineView.of(sheet, group, line, last_open)


def told_of(group: SheetGroup) -> str:
    """ "2 rounds. Rest 0:30." where there is more than one round."""
    if group.rounds_max == 1:
        return ""
    rest = words.rest_text(group)
    return words.rounds_text(group) + (". " + _("Rest %(rest)s.") % {"rest": rest} if rest else ".")
