"""What a card was before a change at the door, as far as that may come back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from coachhub.cards.actions.door_lines import (
    CardPlan,
    Case,
    HeldCard,
    Layout,
    Stay,
    changed,
    fresh_lines,
    is_same,
    left_out,
    lines_by_revision,
    moved,
    title_of,
)
from coachhub.cards.actions.rereading import HEALTH_CODES
from coachhub.cards.actions.snapshots import snapshot
from coachhub.cards.models import CardLine, CardRevision, DoorChange, LineStatus
from coachhub.cards.queries.resolving import Recipe
from coachhub.cards.queries.session_facts import exercise_facts
from coachhub.coaching.door import stands_against
from coachhub.coaching.facts import Note


def plan_undo(held: Sequence[HeldCard], change: DoorChange, recipe: Recipe) -> tuple[CardPlan, ...]:
    """Return a plan for each card that the change reached; `recipe` is without it."""
    reached = set(change.revisions.filter(reason="door").values_list("card_id", flat=True))
    before = _before([one for one in held if one.revision.change_id == change.pk])
    lines = [line for one in held for line in (*one.lines, *before.get(one.card.pk, _NONE)[1])]
    exercises = exercise_facts({line.exercise_id for line in lines})
    plans = []
    for one in held:
        case = Case(recipe, fresh_lines(recipe, one.card.athlete_id), exercises)
        if one.card.pk in before:
            plans.append(_put_back(one, *before[one.card.pk], case))
        elif change.venue_before_id:
            plans.append(moved(CardPlan.unchanged(one), case))
        elif one.card.pk in reached:
            plans.append(CardPlan.unchanged(one, Stay("", "again")))
    return tuple(plans)


_NONE: tuple[Layout, list[CardLine]] = ([], [])


def _before(held: Sequence[HeldCard]) -> dict[int, tuple[Layout, list[CardLine]]]:
    """Per card, layout and lines of the revision before its newest; two queries."""
    numbers = {one.card.pk: one.revision.number - 1 for one in held}
    rows = CardRevision.objects.filter(card__in=numbers, number__in=set(numbers.values()))
    found = [row for row in rows if row.number == numbers[row.card_id]]
    lines = lines_by_revision(found)
    return {row.card_id: (row.layout, lines[row.pk]) for row in found}


def _put_back(held: HeldCard, layout: Layout, before: Sequence[CardLine], case: Case) -> CardPlan:
    was = {line.line_key: line for line in before}
    lines, stays = [], []
    for line in held.lines:
        old = was.get(line.line_key, line)
        stays_begun = line.line_key in held.begun and not _against(held, line, case)
        if stays_begun and not is_same(old, line):
            stays.append(Stay(title_of(line), "begun"))
        lines.append(line if stays_begun or is_same(old, line) else _allowed(held, old, case))
    return replace(CardPlan.unchanged(held, *stays), layout=_with_written(layout, held), lines=tuple(lines))


def _allowed(held: HeldCard, old: CardLine, case: Case) -> CardLine:
    """The line as it was, unless health or the place says otherwise by now."""
    fresh, against = case.fresh.get(old.line_key), _against(held, old, case)
    is_held = fresh is not None and any(step.code in HEALTH_CODES for step in fresh[1].trace)
    if old.status != LineStatus.PLANNED or not (against or is_held):
        return changed(old)
    return snapshot(*fresh) if fresh else left_out(old, *against)


def _against(held: HeldCard, line: CardLine, case: Case) -> tuple[Note, ...]:
    athlete_id = held.card.athlete_id
    facts, athlete = case.exercises[line.exercise_id], case.recipe.athletes[athlete_id]
    return stands_against(facts, athlete, case.recipe.venue_of(athlete_id))


def _with_written(layout: Layout, held: HeldCard) -> Layout:
    """No round that somebody has written goes."""
    return [one | {"rounds_max": max(one["rounds_max"], held.written.get(one["key"], 0))} for one in layout]
