"""A card as parts to be timed."""

from __future__ import annotations

from itertools import groupby
from typing import Any, Final, cast

from coachhub.cards.sheet import Sheet, SheetGroup, SheetLine
from coachhub.coaching.notation import Dose
from coachhub.coaching.timing import TimedBlock, TimedLine, TimedPart

_LOADED_UP: Final = ("bar_total", "machine")


def timed_card(sheet: Sheet) -> tuple[TimedPart, ...]:
    """Return the parts of the card as this athlete has it: what was left out takes no time."""
    return tuple(_part(kind, list(groups)) for kind, groups in groupby(sheet.groups, lambda group: group.segment))


def _part(kind: str, groups: list[SheetGroup]) -> TimedPart:
    return TimedPart(kind, tuple(map(_block, groups)), groups[0].minutes)


def _block(group: SheetGroup) -> TimedBlock:
    rest_s = group.rest_min_s if group.rest_max_s is None else group.rest_max_s
    lines = tuple(map(_line, group.lines))
    return TimedBlock(group.label, group.rounds_max, lines, rest_s, group.rest_after_s or 0, group.is_optional)


def _line(line: SheetLine) -> TimedLine:
    kind, per = cast(Any, line.dose_kind), cast(Any, line.per)
    dose = Dose(kind=kind, low=line.low, high=line.high, per=per, tempo=line.tempo or None)
    is_loaded_up = line.load_meaning in _LOADED_UP
    return TimedLine(dose, line.sets, len(line.ramp_ups), line.rest_after_s, len(line.directions) or 1, is_loaded_up)
