"""A session tree as the facts that the checks read: as written, or as it stands in one week."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, cast

from coachhub.coaching.coverage import Movement
from coachhub.coaching.facts import ExerciseFacts, GroupFacts, LineFacts, SessionFacts
from coachhub.coaching.notation import Dose
from coachhub.coaching.rounds import place_sets
from coachhub.library.models import Exercise
from coachhub.plans.dose import in_week
from coachhub.plans.models import PrescriptionWeek
from coachhub.plans.tree import Block, Line, SessionTree

Weeks = Mapping[tuple[int, int], PrescriptionWeek]
NO_WEEKS: Weeks = {}


def written_facts(
    tree: SessionTree, exercises: Mapping[int, ExerciseFacts], values: Weeks = NO_WEEKS, week: int = 0
) -> SessionFacts:
    """`values`: what differs in weeks, by line and week; without a week the session is taken as it is written."""
    groups = tuple(_group(block, values, week) for block in tree.blocks)
    return SessionFacts(tree.session.pk, tree.session.revision, tree.session.name, groups, exercises)


def with_dose(facts: SessionFacts, block: Block, line: Line, dose: Dose) -> SessionFacts:
    """The session as it would be with this dose on that line; its sets may change the rounds of the block."""
    placed = place_sets(dose, block.rounds, is_only_line=len(block.lines) == 1)
    plain, sets = replace(dose, sets_min=None, sets_max=None), placed.sets or placed.rounds.high

    def changed(group: GroupFacts) -> GroupFacts:
        if group.key != f"g{block.row.pk}":
            return group
        lines = [replace(one, dose=plain, sets=sets) if one.key == line.row.line_key else one for one in group.lines]
        return replace(group, rounds_min=placed.rounds.low, rounds_max=placed.rounds.high, lines=tuple(lines))

    return replace(facts, groups=tuple(map(changed, facts.groups)))


def bare_minutes(tree: SessionTree) -> int:
    """Minutes of parts that hold no block yet, and so are in no facts."""
    return sum(part.row.minutes or 0 for part in tree.parts if not part.blocks)


def _group(block: Block, values: Weeks, week: int) -> GroupFacts:
    row = block.row
    return GroupFacts(
        key=f"g{row.pk}",
        label=block.label,
        segment=row.segment.kind,
        segment_minutes=row.segment.minutes,
        is_optional=row.is_optional,
        rounds_min=row.rounds_min,
        rounds_max=row.rounds_max,
        rest_min_s=row.rest_min_s,
        rest_max_s=row.rest_max_s,
        rest_note=row.rest_note,
        rest_after_s=row.rest_after_s,
        intent=row.intent,
        lines=tuple(_line(line, values.get((line.row.pk, week))) for line in block.lines),
    )


def _line(line: Line, own: PrescriptionWeek | None) -> LineFacts:
    row = line.row
    sets = (own.sets if own else None) or line.sets
    return LineFacts(
        key=row.line_key,
        exercise_id=row.exercise_id,
        dose=in_week(line.dose, own) if own else line.dose,
        sets=min(sets, row.group.rounds_max),
        ramp_up_sets=row.ramp_up_sets,
        directions=tuple(row.directions),
        rest_after_s=row.rest_after_s,
        swap_ids=tuple(one.pk for one in line.swaps),
        pair_with=f"p{row.pair_with_id}" if row.pair_with_id else "",
    )


def facts_of(exercise: Exercise, movement: Movement | None) -> ExerciseFacts:
    """What the checks ask of an exercise, which is not its regions; patterns and equipment are the movement's."""
    return ExerciseFacts(
        id=exercise.pk,
        name=exercise.name,
        patterns=movement.patterns if movement else (),
        measure=exercise.measure,
        load_meaning=cast(Any, exercise.load_meaning),
        laterality=exercise.laterality,
        spotting=exercise.spotting,
        is_regions_reviewed=exercise.is_regions_reviewed,
        is_impact=exercise.is_impact,
        is_grip=exercise.is_grip,
        needs_supervision=exercise.needs_supervision,
        needs=tuple(tuple(sorted(group)) for group in movement.needs) if movement else (),
    )
