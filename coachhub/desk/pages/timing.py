"""How long the session takes against its slot: as a bar, and the same in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from django.utils.translation import gettext as _

from coachhub.base.models import SegmentKind
from coachhub.coaching.notation import Dose
from coachhub.coaching.rounds import place_sets
from coachhub.coaching.timing import PartTime, SessionTime, TimedBlock, TimedLine, TimedPart, time_session
from coachhub.library.models import LoadMeaning
from coachhub.plans.tree import LETTERED, Block, Line, SessionTree
from coachhub.science.duration import whole_minutes

_LOADED_UP = frozenset({LoadMeaning.BAR_TOTAL, LoadMeaning.MACHINE})


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch of the bar, in seconds from the start; its minutes are rounded so that they add up to the whole."""

    name: str
    minutes: int
    start_s: int
    seconds: int


@dataclass(frozen=True, slots=True)
class TimePanel:
    time: SessionTime
    pieces: tuple[Piece, ...]
    notes: tuple[str, ...]

    @classmethod
    def of(cls, tree: SessionTree) -> TimePanel:
        return cls._made(timed_parts(tree), tree.session.slot_minutes)

    @classmethod
    def with_line(cls, tree: SessionTree, block: Block, line: Line | None, dose: Dose) -> TimePanel:
        """As it would be with this dose on the line, or on a new one at the end of the block."""
        return cls._made(timed_parts(tree, {block.row.pk: _with_line(block, line, dose)}), tree.session.slot_minutes)

    @classmethod
    def _made(cls, parts: Sequence[TimedPart], slot_minutes: int) -> TimePanel:
        time = time_session(parts, slot_minutes)
        return cls(time, tuple(_pieces(time)), tuple(_notes(time)))

    @property
    def title(self) -> str:
        return _("%(n)s of %(slot)s minutes") % {"n": self.time.minutes, "slot": self.time.slot_minutes}

    @property
    def slot_s(self) -> int:
        return 60 * self.time.slot_minutes

    @property
    def width_s(self) -> int:
        return max(self.slot_s, self.time.seconds)

    @property
    def over_s(self) -> int:
        return self.width_s - self.slot_s

    @property
    def words(self) -> str:
        free = self.time.free_minutes
        last = (_("free"), free) if free >= 0 else (_("over"), -free)
        named = [*((piece.name, piece.minutes) for piece in self.pieces), last]
        return " · ".join(f"{name}\N{NO-BREAK SPACE}{minutes}" for name, minutes in named)


def timed_parts(tree: SessionTree, instead: Mapping[int, TimedBlock] | None = None) -> tuple[TimedPart, ...]:
    """`instead`: blocks to count in place of those that are written, by the key of their row."""
    other = instead or {}
    return tuple(
        TimedPart(
            part.row.kind,
            tuple(other.get(block.row.pk) or _timed_block(block) for block in part.blocks),
            part.row.minutes,
        )
        for part in tree.parts
    )


def _timed_block(block: Block) -> TimedBlock:
    row = block.row
    rest_s = row.rest_min_s if row.rest_max_s is None else row.rest_max_s
    lines = tuple(_timed_line(line) for line in block.lines)
    return TimedBlock(block.label, block.rounds.high, lines, rest_s, row.rest_after_s or 0, row.is_optional)


def _timed_line(line: Line) -> TimedLine:
    return TimedLine(
        line.dose,
        line.sets,
        line.row.ramp_up_sets,
        line.row.rest_after_s,
        len(line.row.directions) or 1,
        line.exercise.load_meaning in _LOADED_UP,
    )


def _with_line(block: Block, line: Line | None, dose: Dose) -> TimedBlock:
    timed = _timed_block(block)
    places = [row.row.pk for row in block.lines]
    place = places.index(line.row.pk) if line else len(places)
    placed = place_sets(dose, block.rounds, is_only_line=len(places) <= (1 if line else 0))
    sets = placed.sets or placed.rounds.high
    changed = replace(timed.lines[place], dose=dose, sets=sets) if line else TimedLine(dose, sets)
    lines = (*timed.lines[:place], changed, *timed.lines[place + 1 :])
    return replace(timed, rounds=placed.rounds.high, lines=lines)


def _pieces(time: SessionTime) -> Iterator[Piece]:
    stretches = list(_stretches(time.parts))
    ends = [0]
    for _name, seconds in stretches:
        ends.append(ends[-1] + seconds)
    for (name, seconds), (start, end) in zip(stretches, pairwise(ends), strict=True):
        yield Piece(name, whole_minutes(end) - whole_minutes(start), start, seconds)


def _stretches(parts: Sequence[PartTime]) -> Iterator[tuple[str, int]]:
    """What comes before the first block with a letter is one stretch, and so is what comes after the last."""
    places = [place for place, part in enumerate(parts) if _is_split(part)]
    first, last = (places[0], places[-1]) if places else (len(parts), len(parts))
    before, after = sum(part.seconds for part in parts[:first]), sum(part.seconds for part in parts[last + 1 :])
    if before:
        yield _("before"), before
    for part in parts[first : last + 1]:
        if _is_split(part):
            yield from ((block.label, block.seconds) for block in part.blocks if block.seconds)
        elif part.seconds:
            yield part_name(part), part.seconds
    if after:
        yield _("after"), after


def _is_split(part: PartTime) -> bool:
    return part.kind in LETTERED and not part.is_fixed


def part_name(part: PartTime) -> str:
    return str(SegmentKind(part.kind).label)


def _notes(time: SessionTime) -> Iterator[str]:
    if time.free_minutes < 0:
        yield _("%(n)s min over the slot.") % {"n": -time.free_minutes}
        if time.minutes_without_optional < time.minutes:
            yield _("Without what is optional it takes %(n)s min.") % {"n": time.minutes_without_optional}
    for part in time.parts:
        if part.is_fixed and part.is_overfull:
            numbers = {"part": part_name(part), "n": whole_minutes(part.written_s), "given": part.minutes}
            yield _("%(part)s: what is written takes about %(n)s min; it is given %(given)s.") % numbers
    bare = [block.label for part in time.parts for block in part.blocks if block.has_no_rest and block.label]
    if bare:
        yield _("No rest is written between the rounds of %(blocks)s, so none is counted.") % {
            "blocks": ", ".join(bare)
        }
