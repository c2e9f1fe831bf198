"""What renewing would change on each card that is older than its session."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Sequence
from dataclasses import dataclass

from coachhub.base.actor import Actor
from coachhub.cards.models import Assignment, Card
from coachhub.cards.queries.previewing import line_to_be
from coachhub.cards.queries.resolving import recipe_of
from coachhub.cards.queries.sheets import load_sheets
from coachhub.cards.sheet import Sheet, SheetGroup, SheetLine
from coachhub.coaching.differences import OF_A_BLOCK, OF_A_LINE, Aspect, Difference, Said, differences
from coachhub.coaching.resolve import ResolvedCard, ResolvedGroup

Blocks = Sequence[SheetGroup]


@dataclass(frozen=True, slots=True)
class LineChange:
    """A line with what differs; `before` is None for a new one, `after` for one that goes."""

    difference: Difference
    before: SheetLine | None
    after: SheetLine | None


@dataclass(frozen=True, slots=True)
class BlockChange:
    difference: Difference
    before: SheetGroup | None
    after: SheetGroup | None


@dataclass(frozen=True, slots=True)
class CardChange:
    """Nothing in either: the session was written anew without a change for this athlete."""

    card_id: int
    athlete_name: str
    athlete_unit: str
    blocks: tuple[BlockChange, ...]
    lines: tuple[LineChange, ...]


def changes_of(actor: Actor, assignment: Assignment) -> tuple[CardChange, ...]:
    """By name, for every stale card of the assignment that the actor sees; as many queries for one as for thirty."""
    cards = Card.objects.visible_to(actor).stale().filter(assignment=assignment)
    sheets = load_sheets(cards)
    if not sheets:
        return ()
    recipe = recipe_of(cards)
    return tuple(_change(sheet, _blocks_to_be(recipe.resolve(sheet.athlete_id))) for sheet in sheets)


def _blocks_to_be(card: ResolvedCard) -> tuple[SheetGroup, ...]:
    return tuple(_block_to_be(resolved) for resolved in card.groups)


def _block_to_be(resolved: ResolvedGroup) -> SheetGroup:
    group = resolved.group
    lines = [line_to_be(line) for line in resolved.lines]
    return SheetGroup(
        key=group.key,
        label=group.label,
        segment=group.segment,
        minutes=group.segment_minutes,
        is_optional=group.is_optional,
        rounds_min=group.rounds_min,
        rounds_max=group.rounds_max,
        rest_min_s=group.rest_min_s,
        rest_max_s=group.rest_max_s,
        rest_note=group.rest_note,
        rest_after_s=group.rest_after_s,
        intent=group.intent,
        lines=tuple(line for line in lines if not line.is_dropped),
        dropped=tuple(line for line in lines if line.is_dropped),
    )


def _change(sheet: Sheet, after: Blocks) -> CardChange:
    before = sheet.groups
    blocks = differences([_said_block(one) for one in before], [_said_block(one) for one in after], OF_A_BLOCK)
    lines = differences(_said_lines(before), _said_lines(after), OF_A_LINE)
    was, now = ({group.key: group for group in side} for side in (before, after))
    old, new = ({line.key: line for line in _lines(side)} for side in (before, after))
    return CardChange(
        sheet.card_id,
        sheet.athlete_name,
        sheet.athlete_unit,
        # A block that comes or goes is told by its lines.
        tuple(BlockChange(one, was.get(one.key), now.get(one.key)) for one in blocks if one.kind == "changed"),
        tuple(LineChange(one, old.get(one.key), new.get(one.key)) for one in lines),
    )


def _lines(blocks: Blocks) -> Iterable[SheetLine]:
    return (line for group in blocks for line in (*group.lines, *group.dropped))


def _said_block(group: SheetGroup) -> Said:
    rest = (group.rest_min_s, group.rest_max_s, group.rest_note, group.rest_after_s)
    return Said(group.key, {"rounds": (group.rounds_min, group.rounds_max, group.is_optional), "round_rest": rest})


def _said_lines(blocks: Blocks) -> list[Said]:
    return [
        Said(line.key, _values(group, line), line.is_dropped)
        for group in blocks
        for line in (*group.lines, *group.dropped)
    ]


def _values(group: SheetGroup, line: SheetLine) -> dict[Aspect, Hashable]:
    return {
        "exercise": line.exercise_id,
        "block": group.key,
        "sets": line.sets,
        "amount": (line.dose_kind, line.low, line.high, line.per, line.directions),
        "load": (line.load, line.load_high, line.load_words, line.wants_load),
        "reserve": line.rir_half,
        "tempo": line.tempo,
        "ramp_ups": line.ramp_ups,
        "rest": line.rest_after_s,
        "cue": line.cue,
    }
