"""The written session, its exercises and their swaps, as facts. A fixed number of queries, however long it is."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, cast

from django.db.models import Q

from coachhub.base.models import SegmentKind
from coachhub.coaching.facts import ExerciseFacts, GroupFacts, LineFacts, ListedSwap, RegionLoad, SessionFacts
from coachhub.library.models import Exercise, ExercisePattern, Swap
from coachhub.plans.dose import in_week, plain_dose
from coachhub.plans.models import CircuitGroup, Prescription, Segment, Session

_LETTERED = (SegmentKind.STRENGTH, SegmentKind.CONDITIONING)
_PARTS = ("patterns", "regions", "needs", "cues")


def exercise_facts(ids: Iterable[int]) -> dict[int, ExerciseFacts]:
    rows = Exercise.objects.filter(pk__in=set(ids)).prefetch_related(*_PARTS).order_by("pk")
    return {row.pk: _exercise(row) for row in rows}


def _exercise(row: Exercise) -> ExerciseFacts:
    groups: dict[int, list[str]] = {}
    for need in row.needs.all():
        groups.setdefault(need.group, []).append(need.kind)
    return ExerciseFacts(
        id=row.pk,
        name=row.name,
        patterns=tuple(p.pattern for p in row.patterns.all()),
        measure=row.measure,
        load_meaning=cast(Any, row.load_meaning),
        laterality=row.laterality,
        spotting=row.spotting,
        regions=tuple(RegionLoad(r.region, cast(Any, r.side_sense)) for r in row.regions.all()),
        is_regions_reviewed=row.is_regions_reviewed,
        is_impact=row.is_impact,
        is_overhead=row.is_overhead,
        is_grip=row.is_grip,
        is_deep_range=row.is_deep_range,
        needs_supervision=row.needs_supervision,
        needs=tuple(tuple(groups[key]) for key in sorted(groups)),
        cues=tuple((cue.direction, cue.text) for cue in row.cues.all()),
        segment=row.segment,
        directions=tuple(row.directions),
        family=row.family,
        family_rank=row.family_rank,
    )


def listed_swaps(ids: Iterable[int]) -> dict[int, tuple[ListedSwap, ...]]:
    """Return what the library lists for each exercise, in its order; those put away are left out."""
    found: dict[int, list[ListedSwap]] = {}
    rows = Swap.objects.filter(exercise__in=set(ids), to__archived_at=None).order_by("exercise", "position", "pk")
    for row in rows:
        found.setdefault(row.exercise_id, []).append(ListedSwap(row.to_id, row.reason, row.region))
    return {pk: tuple(swaps) for pk, swaps in found.items()}


def alternatives_to(exercises: Iterable[ExerciseFacts]) -> tuple[ExerciseFacts, ...]:
    """Return every reviewed exercise in use that shares the main pattern and the part of one of these."""
    wanted = Q()
    for pattern, segment in sorted({(one.patterns[0], one.segment) for one in exercises if one.patterns}):
        wanted |= Q(segment=segment, pk__in=ExercisePattern.objects.filter(pattern=pattern).values("exercise"))
    if not wanted:
        return ()
    rows = Exercise.objects.live().filter(wanted, is_regions_reviewed=True)
    return tuple(exercise_facts(rows.values_list("pk", flat=True)).values())


def session_facts(session: Session, week: int) -> SessionFacts:
    """Return the session as it stands in that week of its plan."""
    segments = session.segments.prefetch_related(
        "groups__prescriptions__swaps", "groups__prescriptions__week_values"
    ).order_by("position", "pk")
    letters = iter("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
    groups = tuple(
        _group(segment, group, next(letters) if segment.kind in _LETTERED else "", week)
        for segment in segments
        for group in segment.groups.all()
    )
    lines = [line for group in groups for line in group.lines]
    written = {line.exercise_id for line in lines}
    listed = listed_swaps(written)
    ids = {*written, *(swap for line in lines for swap in line.swap_ids)}
    ids |= {swap.to_id for swaps in listed.values() for swap in swaps} | _families(lines)
    return SessionFacts(session.pk, session.revision, session.name, groups, exercise_facts(ids), listed)


def _families(lines: Iterable[LineFacts]) -> set[int]:
    """The variations that a line may speak of; no query where none does."""
    spoken = [line.exercise_id for line in lines if line.by_level]
    if not spoken:
        return set()
    families = Exercise.objects.filter(pk__in=spoken).exclude(family="").values("family")
    return set(Exercise.objects.live().filter(family__in=families).values_list("pk", flat=True))


def _group(segment: Segment, group: CircuitGroup, label: str, week: int) -> GroupFacts:
    return GroupFacts(
        key=f"g{group.pk}",
        label=label,
        segment=segment.kind,
        segment_minutes=segment.minutes,
        is_optional=group.is_optional,
        rounds_min=group.rounds_min,
        rounds_max=group.rounds_max,
        rest_min_s=group.rest_min_s,
        rest_max_s=group.rest_max_s,
        rest_note=group.rest_note,
        rest_after_s=group.rest_after_s,
        intent=group.intent,
        lines=tuple(_line(row, group, week) for row in group.prescriptions.all()),
    )


def _line(row: Prescription, group: CircuitGroup, week: int) -> LineFacts:
    values = next((w for w in row.week_values.all() if w.week == week), None)
    dose, sets = plain_dose(row), row.sets
    if values is not None:
        dose, sets = in_week(dose, values), values.sets or sets
    return LineFacts(
        key=row.line_key,
        exercise_id=row.exercise_id,
        dose=dose,
        sets=min(sets, group.rounds_max) if sets else group.rounds_max,
        ramp_up_sets=row.ramp_up_sets,
        directions=tuple(row.directions),
        cue=row.cue,
        rest_after_s=row.rest_after_s,
        swap_ids=tuple(swap.exercise_id for swap in row.swaps.all()),
        pair_with=f"p{row.pair_with_id}" if row.pair_with_id else "",
        by_level=row.is_by_level,
    )
