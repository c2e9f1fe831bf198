"""Turns what an exercise says into its rows; used by the verbs and by the import of the starting library."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from coachhub.base.text import fold
from coachhub.library.content import DEMANDS, FAULTS_BETWEEN, Content
from coachhub.library.models import (
    EquipmentNeed,
    ExerciseAlias,
    ExerciseCue,
    ExercisePattern,
    ExerciseRegion,
    Swap,
)

PARTS = (
    ExerciseAlias.objects,
    ExercisePattern.objects,
    ExerciseCue.objects,
    ExerciseRegion.objects,
    EquipmentNeed.objects,
    Swap.objects,
)
Texts = Sequence[tuple[int, Content]]


def columns_of(content: Content) -> dict[str, Any]:
    """The exercise's own columns, without those that say where it comes from."""
    return {
        "name": content.name,
        "search_key": fold(content.name),
        "family": content.family,
        "family_rank": content.family_rank,
        "segment": content.segment,
        "laterality": content.laterality,
        "measure": content.measure,
        "load_meaning": content.load,
        "spotting": content.spotting,
        "directions": list(content.directions),
        "why": content.why,
        "faults": FAULTS_BETWEEN.join(content.faults),
        "needs_supervision": content.needs_supervision,
        **{f"is_{demand}": demand in content.demands for demand in DEMANDS},
    }


def replace_parts(texts: Texts, ids: Mapping[str, int]) -> None:
    """Make the parts of these exercises (number, text) what their texts say; `ids` finds a swap's other exercise."""
    owners = [pk for pk, _content in texts]
    for parts in PARTS:
        parts.filter(exercise__in=owners).delete()
    _write_words(texts)
    _write_demands(texts)
    Swap.objects.bulk_create(
        Swap(exercise_id=pk, to_id=ids[swap.to], reason=swap.reason, region=swap.region, position=position)
        for pk, content in texts
        for position, swap in enumerate(content.swaps)
    )


def _write_words(texts: Texts) -> None:
    ExerciseAlias.objects.bulk_create(
        ExerciseAlias(exercise_id=pk, name=name, search_key=fold(name))
        for pk, content in texts
        for name in content.also
    )
    ExercisePattern.objects.bulk_create(
        ExercisePattern(exercise_id=pk, pattern=pattern, position=position)
        for pk, content in texts
        for position, pattern in enumerate(content.patterns)
    )
    ExerciseCue.objects.bulk_create(
        ExerciseCue(exercise_id=pk, direction=direction, text=text, position=position)
        for pk, content in texts
        for position, (direction, text) in enumerate(content.cues)
    )


def _write_demands(texts: Texts) -> None:
    ExerciseRegion.objects.bulk_create(
        ExerciseRegion(exercise_id=pk, region=region, side_sense=sense)
        for pk, content in texts
        for region, sense in content.regions
    )
    EquipmentNeed.objects.bulk_create(
        EquipmentNeed(exercise_id=pk, group=group, kind=kind)
        for pk, content in texts
        for group, kinds in enumerate(content.equipment)
        for kind in kinds
    )
