"""A session as it is written, whole: parts, blocks, lines, with the labels that people read."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import count
from string import ascii_uppercase
from typing import Final

from coachhub.base.models import SegmentKind
from coachhub.coaching.notation import Dose
from coachhub.coaching.rounds import Rounds
from coachhub.library.models import Exercise
from coachhub.plans.dose import plain_dose, written_dose
from coachhub.plans.models import CircuitGroup, Prescription, Segment, Session

# Parts whose blocks carry letters; the lines of the others are counted 1, 2, 3 through the part.
LETTERED: Final = frozenset({SegmentKind.STRENGTH.value, SegmentKind.CONDITIONING.value})


@dataclass(frozen=True, slots=True)
class Line:
    """`dose` has no sets; `written` has them where they are fewer than the rounds; `sets` is their number."""

    row: Prescription
    label: str
    dose: Dose
    written: Dose
    sets: int
    swaps: tuple[Exercise, ...]

    @property
    def exercise(self) -> Exercise:
        return self.row.exercise

    @property
    def week_count(self) -> int:
        """In how many weeks it differs, where the rows were read with it."""
        return getattr(self.row, "week_count", 0)


@dataclass(frozen=True, slots=True)
class Block:
    """`label` A, B, C; empty in the parts before and after the strength work."""

    row: CircuitGroup
    label: str
    lines: tuple[Line, ...]

    @property
    def rounds(self) -> Rounds:
        return Rounds(self.row.rounds_min, self.row.rounds_max)


@dataclass(frozen=True, slots=True)
class Part:
    row: Segment
    blocks: tuple[Block, ...]

    @property
    def is_lettered(self) -> bool:
        return self.row.kind in LETTERED

    @property
    def lines(self) -> tuple[Line, ...]:
        return tuple(line for block in self.blocks for line in block.lines)


@dataclass(frozen=True, slots=True)
class SessionTree:
    session: Session
    parts: tuple[Part, ...]

    @property
    def blocks(self) -> tuple[Block, ...]:
        return tuple(block for part in self.parts for block in part.blocks)

    @property
    def lines(self) -> tuple[Line, ...]:
        return tuple(line for block in self.blocks for line in block.lines)

    @property
    def exercises(self) -> dict[int, Exercise]:
        """Every exercise of a line or an allowed swap, by id."""
        used = (one for line in self.lines for one in (line.exercise, *line.swaps))
        return {one.pk: one for one in used}


def block_letter(number: int) -> str:
    """0 -> A, 25 -> Z, 26 -> AA."""
    letters = ""
    number += 1
    while number:
        number, rest = divmod(number - 1, 26)
        letters = ascii_uppercase[rest] + letters
    return letters


def build_tree(
    session: Session,
    segments: Iterable[Segment],
    groups: Mapping[int, Sequence[CircuitGroup]],
    lines: Mapping[int, Sequence[Prescription]],
    swaps: Mapping[int, Sequence[Exercise]],
) -> SessionTree:
    """Put rows together that were read in order: groups by segment, lines by group, swaps by line."""
    letters = (block_letter(number) for number in count())
    parts = [_part(segment, groups.get(segment.pk, ()), lines, swaps, letters) for segment in segments]
    return SessionTree(session, tuple(parts))


def _part(
    segment: Segment,
    groups: Sequence[CircuitGroup],
    lines: Mapping[int, Sequence[Prescription]],
    swaps: Mapping[int, Sequence[Exercise]],
    letters: Iterator[str],
) -> Part:
    is_lettered = segment.kind in LETTERED
    numbers = count(1)
    blocks = []
    for group in groups:
        group.segment = segment
        letter = next(letters) if is_lettered else ""
        labels = (f"{letter}{number}" for number in (count(1) if is_lettered else numbers))
        rows = lines.get(group.pk, ())
        blocks.append(Block(group, letter, tuple(_line(row, group, next(labels), swaps) for row in rows)))
    return Part(segment, tuple(blocks))


def _line(row: Prescription, group: CircuitGroup, label: str, swaps: Mapping[int, Sequence[Exercise]]) -> Line:
    row.group = group
    return Line(
        row=row,
        label=label,
        dose=plain_dose(row),
        written=written_dose(row),
        sets=row.sets or group.rounds_max,
        swaps=tuple(swaps.get(row.pk, ())),
    )
