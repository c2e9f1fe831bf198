"""Brings the starting library into the club's own: adds what is new, updates what nobody has edited."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from django.conf import settings
from django.db import transaction

from coachhub.base.text import fold
from coachhub.library.models import (
    EquipmentNeed,
    Exercise,
    ExerciseAlias,
    ExerciseCue,
    ExercisePattern,
    ExerciseRegion,
    Swap,
)
from coachhub.library.starting_file import LibraryError, StartingExercise, read_starting_library

__all__ = ["ImportReport", "LibraryError", "import_starting_library"]

PARTS = (
    ExerciseAlias.objects,
    ExercisePattern.objects,
    ExerciseCue.objects,
    ExerciseRegion.objects,
    EquipmentNeed.objects,
    Swap.objects,
)


@dataclass(frozen=True, slots=True)
class ImportReport:
    """How many rows were new, how many were brought up to date, how many stay as the club edited them."""

    added: int
    updated: int
    kept: int


def import_starting_library(folder: Path | None = None) -> ImportReport:
    """Import `folder` (without one: the library that comes with the program); doing it again changes nothing.

    Everything is checked first: LibraryError names the file, the row and the mistake, and nothing is written.
    """
    rows = read_starting_library(folder or settings.BASE_DIR / "fixtures" / "library")
    with transaction.atomic():
        return _write(rows)


def _write(rows: list[StartingExercise]) -> ImportReport:
    present = list(Exercise.objects.select_for_update().order_by("pk"))
    edited = {e.origin_key for e in present if e.edited_at is not None}
    fresh = [row for row in rows if row.key not in edited]
    _check_names(fresh, present)
    Exercise.objects.bulk_create(
        [Exercise(origin_key=row.key, **_fields(row)) for row in fresh],
        update_conflicts=True,
        unique_fields=["origin_key"],
        update_fields=list(_fields(rows[0])),
    )
    _replace_parts(fresh, {e.origin_key: e.pk for e in Exercise.objects.only("origin_key") if e.origin_key})
    updated = len({row.key for row in fresh} & {e.origin_key for e in present})
    return ImportReport(added=len(fresh) - updated, updated=updated, kept=len(rows) - len(fresh))


def _check_names(rows: list[StartingExercise], present: list[Exercise]) -> None:
    """A name that the club gave to another exercise stays the club's."""
    written = {row.key for row in rows}
    taken = {e.search_key for e in present if e.origin_key not in written}
    for row in rows:
        if fold(row.name) in taken:
            sentence = f"the club has another exercise called “{row.name}”; rename that one first."
            raise LibraryError(row.file, row.key, sentence)


def _replace_parts(rows: list[StartingExercise], ids: dict[str, int]) -> None:
    owners = [ids[row.key] for row in rows]
    for parts in PARTS:
        parts.filter(exercise__in=owners).delete()
    ExerciseAlias.objects.bulk_create(
        ExerciseAlias(exercise_id=ids[row.key], name=name, search_key=fold(name)) for row in rows for name in row.also
    )
    ExercisePattern.objects.bulk_create(
        ExercisePattern(exercise_id=ids[row.key], pattern=pattern, position=position)
        for row in rows
        for position, pattern in enumerate(row.patterns)
    )
    ExerciseCue.objects.bulk_create(
        ExerciseCue(exercise_id=ids[row.key], direction=direction, text=text, position=position)
        for row in rows
        for position, (direction, text) in enumerate(row.cues)
    )
    ExerciseRegion.objects.bulk_create(
        ExerciseRegion(exercise_id=ids[row.key], region=region, side_sense=sense)
        for row in rows
        for region, sense in row.regions
    )
    EquipmentNeed.objects.bulk_create(
        EquipmentNeed(exercise_id=ids[row.key], group=group, kind=kind)
        for row in rows
        for group, kinds in enumerate(row.equipment)
        for kind in kinds
    )
    Swap.objects.bulk_create(
        Swap(exercise_id=ids[row.key], to_id=ids[swap.to], reason=swap.reason, region=swap.region, position=position)
        for row in rows
        for position, swap in enumerate(row.swaps)
    )


def _fields(row: StartingExercise) -> dict[str, Any]:
    return {
        "name": row.name,
        "search_key": fold(row.name),
        "segment": row.segment,
        "laterality": row.laterality,
        "measure": row.measure,
        "load_meaning": row.load,
        "spotting": row.spotting,
        "directions": list(row.directions),
        "why": row.why,
        "faults": "; ".join(row.faults),
        "is_impact": "impact" in row.demands,
        "is_overhead": "overhead" in row.demands,
        "is_grip": "grip" in row.demands,
        "is_deep_range": "deep_range" in row.demands,
        "is_regions_reviewed": bool(row.regions),
        "needs_supervision": row.needs_supervision,
    }
