"""Which movement patterns a session covers, by which lines, and what would close a gap.

Lines of the athleticism, strength and conditioning parts count. Warm-up, activation and cool-down do not: they
prepare or recover, at a load too light to train the pattern. An exercise with several patterns covers each.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

PRIMARY: Final = ("hinge", "squat", "lunge", "push", "pull")
FURTHER: Final = ("carry", "trunk", "jump")
COUNTED_PARTS: Final = frozenset({"athleticism", "strength", "conditioning"})
# A block is two to four exercises; with more, the first is cold again before its next round (common practice).
MOST_IN_BLOCK: Final = 4


@dataclass(frozen=True, slots=True)
class Movement:
    """An exercise as far as coverage goes: patterns, most important first; `needs` any-of groups of equipment."""

    id: int
    name: str
    patterns: tuple[str, ...]
    needs: tuple[frozenset[str], ...] = ()
    is_loaded: bool = False


@dataclass(frozen=True, slots=True)
class CoverageLine:
    label: str
    part: str
    movement: Movement


@dataclass(frozen=True, slots=True)
class BlockSize:
    """A block that could take one more exercise; `key` is the caller's own."""

    key: int
    label: str
    size: int


@dataclass(frozen=True, slots=True)
class Suggestion:
    """`block` None: all are full or there is none, so it starts a block of its own."""

    movement: Movement
    block: BlockSize | None


@dataclass(frozen=True, slots=True)
class Gap:
    """`code` names the note: gap_with_suggestion or gap."""

    code: str
    pattern: str
    suggestion: Suggestion | None


@dataclass(frozen=True, slots=True)
class Covered:
    """`labels` of the lines that cover the pattern, none where it is missing."""

    pattern: str
    labels: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Coverage:
    """`primary` and `further` in trade order; a gap for each pattern without a line, the primary ones first."""

    primary: tuple[Covered, ...]
    further: tuple[Covered, ...]
    gaps: tuple[Gap, ...]


def coverage(
    lines: Sequence[CoverageLine],
    *,
    blocks: Sequence[BlockSize] = (),
    library: Iterable[Movement] = (),
    always_there: frozenset[str] = frozenset(),
) -> Coverage:
    """What the lines cover; suggestions come from `library`, with equipment that the session uses already."""
    counted = [line for line in lines if line.part in COUNTED_PARTS]
    primary, further = (tuple(_covered(pattern, counted) for pattern in group) for group in (PRIMARY, FURTHER))
    missing = [covered.pattern for covered in (*primary, *further) if not covered.labels]
    at_hand = always_there.union(*(kinds for line in lines for kinds in line.movement.needs))
    known = {line.movement.id for line in lines}
    fitting = [one for one in library if one.id not in known and _is_usable(one, at_hand)]
    return Coverage(primary, further, _gaps(missing, fitting, list(blocks)))


def lost_patterns(written: Iterable[Sequence[str]], kept: Iterable[Sequence[str]]) -> tuple[str, ...]:
    """Return the primary patterns that the written exercises cover and those that are kept do not, in trade order."""
    before = {pattern for patterns in written for pattern in patterns}
    after = {pattern for patterns in kept for pattern in patterns}
    return tuple(pattern for pattern in PRIMARY if pattern in before - after)


def _covered(pattern: str, lines: Sequence[CoverageLine]) -> Covered:
    return Covered(pattern, tuple(line.label for line in lines if pattern in line.movement.patterns))


def _is_usable(movement: Movement, at_hand: frozenset[str]) -> bool:
    return all(kinds & at_hand for kinds in movement.needs)


def _gaps(missing: Sequence[str], fitting: Sequence[Movement], blocks: list[BlockSize]) -> tuple[Gap, ...]:
    """One after the other, so that a coach who follows all of them overfills no block."""
    gaps = []
    for pattern in missing:
        movement = _best(pattern, fitting)
        if movement is None:
            gaps.append(Gap("gap", pattern, None))
            continue
        block = _smallest(blocks)
        gaps.append(Gap("gap_with_suggestion", pattern, Suggestion(movement, block)))
        if block is not None:
            place = blocks.index(block)
            blocks[place] = BlockSize(block.key, block.label, block.size + 1)
    return tuple(gaps)


def _best(pattern: str, fitting: Sequence[Movement]) -> Movement | None:
    """The exercise most plainly about the pattern; one that takes a load before one that does not, then by name."""
    candidates = [one for one in fitting if pattern in one.patterns]
    return min(candidates, key=lambda one: _rank(pattern, one), default=None)


def _rank(pattern: str, movement: Movement) -> tuple[int, int, bool, str, int]:
    place = movement.patterns.index(pattern)
    return place, len(movement.patterns), not movement.is_loaded, movement.name.casefold(), movement.id


def _smallest(blocks: Sequence[BlockSize]) -> BlockSize | None:
    open_blocks = [block for block in blocks if block.size < MOST_IN_BLOCK]
    return min(open_blocks, key=lambda block: block.size, default=None)
