"""What a change at the door does to one card: which lines change, what stays as it is, and why.

A line with a set written on it stays as it was planned; only health, and nobody there to supervise, takes it off.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final, Literal

from coachhub.cards.actions.snapshots import snapshot
from coachhub.cards.models import Card, CardLine, CardRevision, LineStatus, SetEntry
from coachhub.cards.queries.resolving import Recipe
from coachhub.cards.queries.session_facts import exercise_facts
from coachhub.coaching.door import DoorStep, rounds_after, sets_after, stands_against
from coachhub.coaching.facts import ExerciseFacts, Note, note
from coachhub.coaching.resolve import ResolvedGroup, ResolvedLine

Why = Literal["begun", "written", "on_card", "elsewhere", "again", "gone"]
Layout = list[dict[str, Any]]
Fresh = Mapping[str, tuple[ResolvedGroup, ResolvedLine]]
# What makes two lines the same to whoever trains them.
_SAME: Final = ("exercise_id", "status", "load_value", "load_unit", "load_high", "sets", "load_words")


@dataclass(frozen=True, slots=True)
class Stay:
    """`what`: the line or block that stays; empty for the whole card."""

    what: str
    why: Why


@dataclass(frozen=True, slots=True)
class HeldCard:
    """A card as it stands: `begun` are the keys of lines with a set on them, `written` the last round so by block."""

    card: Card
    revision: CardRevision
    lines: tuple[CardLine, ...]
    begun: frozenset[str]
    written: Mapping[str, int]


@dataclass(frozen=True, slots=True)
class CardPlan:
    """What a card would be. `off`: begun lines that safety takes off all the same."""

    held: HeldCard
    layout: Layout
    lines: tuple[CardLine, ...]
    stays: tuple[Stay, ...] = ()
    off: tuple[str, ...] = ()

    @property
    def is_changed(self) -> bool:
        pairs = zip(self.lines, self.held.lines, strict=True)
        return self.layout != self.held.revision.layout or any(new is not old for new, old in pairs)

    @classmethod
    def unchanged(cls, held: HeldCard, *stays: Stay) -> CardPlan:
        return cls(held, held.revision.layout, held.lines, stays)


@dataclass(frozen=True, slots=True)
class Case:
    """What a step is decided on, besides the card."""

    recipe: Recipe
    fresh: Fresh
    exercises: Mapping[int, ExerciseFacts]


def held_cards(cards: Sequence[Card]) -> list[HeldCard]:
    """Return each card with its newest revision; three queries."""
    numbers = {card.pk: card.revision_number for card in cards}
    rows = CardRevision.objects.filter(card__in=numbers, number__in=set(numbers.values())).order_by("pk")
    revisions = {row.card_id: row for row in rows if row.number == numbers[row.card_id]}
    lines = lines_by_revision(revisions.values())
    entries: defaultdict[int, list[tuple[str, int]]] = defaultdict(list)
    for card_id, key, number in SetEntry.objects.filter(card__in=numbers).values_list("card_id", "line_key", "round"):
        entries[card_id].append((key, number))
    return [_held(card, revisions[card.pk], lines[revisions[card.pk].pk], entries[card.pk]) for card in cards]


def lines_by_revision(revisions: Iterable[CardRevision]) -> defaultdict[int, list[CardLine]]:
    found: defaultdict[int, list[CardLine]] = defaultdict(list)
    for line in CardLine.objects.filter(revision__in=list(revisions)).order_by("position", "pk"):
        found[line.revision_id].append(line)
    return found


def _held(card: Card, revision: CardRevision, lines: list[CardLine], entries: list[tuple[str, int]]) -> HeldCard:
    blocks = {line.line_key: line.group_key for line in lines}
    written: dict[str, int] = {}
    for key, number in entries:
        if key in blocks:
            written[blocks[key]] = max(written.get(blocks[key], 0), number)
    return HeldCard(card, revision, tuple(lines), frozenset(key for key, _ in entries), written)


def plan_cards(held: Sequence[HeldCard], steps: Sequence[DoorStep], recipe: Recipe) -> list[CardPlan]:
    """Return what each card would be with the steps; the recipe has them already."""
    exercises = exercise_facts({line.exercise_id for one in held for line in one.lines})
    return [plan_card(one, steps, recipe, exercises) for one in held]


def plan_card(
    held: HeldCard, steps: Sequence[DoorStep], recipe: Recipe, exercises: Mapping[int, ExerciseFacts]
) -> CardPlan:
    plan, case = CardPlan.unchanged(held), Case(recipe, fresh_lines(recipe, held.card.athlete_id), exercises)
    for step in steps:
        match step.do:
            case "block":
                plan = _without_block(plan, step)
            case "rounds":
                plan = _with_rounds(plan, step)
            case "swap":
                plan = _with_swap(plan, step, case)
            case "venue":
                plan = moved(plan, case)
    return plan


def fresh_lines(recipe: Recipe, athlete_id: int) -> Fresh:
    return {line.line.key: (group, line) for group in recipe.resolve(athlete_id).groups for line in group.lines}


def _without_block(plan: CardPlan, step: DoorStep) -> CardPlan:
    lines, stays = [], list(plan.stays)
    for line in plan.lines:
        is_meant = line.group_key == step.key and line.status == LineStatus.PLANNED
        if is_meant and line.line_key in plan.held.begun:
            stays.append(Stay(title_of(line), "begun"))
        lines.append(left_out(line, note("door_block")) if is_meant and line.line_key not in plan.held.begun else line)
    return replace(plan, lines=tuple(lines), stays=tuple(stays))


def _with_rounds(plan: CardPlan, step: DoorStep) -> CardPlan:
    """Rounds are the block's: those that nobody has written yet may be cut, on a begun block too."""
    block = next((one for one in plan.layout if one["key"] == step.key), None)
    if block is None:
        return replace(plan, stays=(*plan.stays, Stay("", "gone")))
    was, written = block["rounds_max"], plan.held.written.get(step.key, 0)
    if step.value > was and written:
        return replace(plan, stays=(*plan.stays, Stay(step.label, "begun")))
    stays = (*plan.stays, Stay(step.label, "written")) if written > step.value else plan.stays
    wanted = max(step.value, min(written, was))
    low, high = rounds_after(block["rounds_min"], was, wanted)
    layout = [one | {"rounds_min": low, "rounds_max": high} if one is block else one for one in plan.layout]
    lines = tuple(_with_sets(plan, line, step.key, was, high) for line in plan.lines)
    return replace(plan, layout=layout, lines=lines, stays=stays)


def _with_sets(plan: CardPlan, line: CardLine, key: str, was: int, now: int) -> CardLine:
    if line.group_key != key or line.line_key in plan.held.begun or line.status != LineStatus.PLANNED:
        return line
    sets = sets_after(line.sets, was, now)
    return line if sets == line.sets else changed(line, sets=sets)


def _with_swap(plan: CardPlan, step: DoorStep, case: Case) -> CardPlan:
    line = next((one for one in plan.lines if one.line_key == step.key), None)
    fresh = case.fresh.get(step.key)
    if line is None or fresh is None:
        return replace(plan, stays=(*plan.stays, Stay("", "gone")))
    if line.line_key in plan.held.begun:
        return replace(plan, stays=(*plan.stays, Stay(title_of(line), "begun")))
    others = {one.exercise_id for one in plan.lines if one is not line and one.status == LineStatus.PLANNED}
    if fresh[1].status == "planned" and fresh[1].exercise.id in others:
        return replace(plan, stays=(*plan.stays, Stay(title_of(line), "on_card")))
    new = snapshot(*fresh)
    if is_same(new, line):
        return plan
    return replace(plan, lines=tuple(new if one is line else one for one in plan.lines))


def moved(plan: CardPlan, case: Case) -> CardPlan:
    """Every line that is not begun is resolved anew; a begun one goes only where it must not be done there."""
    lines, stays, off = [], list(plan.stays), list(plan.off)
    facts, place = plan.held.card.athlete_id, case.recipe.venue_of(plan.held.card.athlete_id)
    for line in plan.lines:
        against = stands_against(case.exercises[line.exercise_id], case.recipe.athletes[facts], place)
        is_begun, fresh = line.line_key in plan.held.begun, case.fresh.get(line.line_key)
        if is_begun and not against:
            if fresh and not is_same(snapshot(*fresh), line):
                stays.append(Stay(title_of(line), "begun"))
            lines.append(line)
            continue
        if is_begun and line.status == LineStatus.PLANNED:
            off.append(title_of(line))
        lines.append(_resolved(line, fresh, against))
    return replace(plan, lines=tuple(lines), stays=tuple(stays), off=tuple(off))


def _resolved(line: CardLine, fresh: tuple[ResolvedGroup, ResolvedLine] | None, against: tuple[Note, ...]) -> CardLine:
    if fresh is None:
        return left_out(line, *against) if against and line.status == LineStatus.PLANNED else line
    new = snapshot(*fresh)
    return line if is_same(new, line) else new


def left_out(line: CardLine, *why: Note) -> CardLine:
    trace = [{"code": s.code, "params": dict(s.params), "entries": list(s.entry_ids)} for s in why]
    no_load = {"load_rule": "none", "load_value": None, "load_unit": "", "load_high": None, "load_words": ""}
    return changed(line, status=LineStatus.DROPPED, trace=trace, ramp_ups=[], plates={}, steps=[], **no_load)


def changed(line: CardLine, **values: Any) -> CardLine:
    """Return a new row like this one; what is stored never changes."""
    columns = {name: value for name, value in vars(line).items() if name != "_state"}
    return CardLine(**(columns | values))


def is_same(one: CardLine, other: CardLine) -> bool:
    return all(getattr(one, name) == getattr(other, name) for name in _SAME)


def title_of(line: CardLine) -> str:
    return f"{line.label} {line.name}" if line.label[:1].isalpha() else line.name
