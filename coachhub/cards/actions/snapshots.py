"""Writes a resolved card as a revision: a snapshot that nothing changes afterwards."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from coachhub.base.actor import Actor
from coachhub.base.clock import now
from coachhub.cards.models import Card, CardLine, CardRevision, DoorChange, LineStatus, RevisionReason
from coachhub.coaching.facts import DoneSet, ExerciseFacts, GroupFacts, Note
from coachhub.coaching.resolve import ResolvedCard, ResolvedGroup, ResolvedLine


def new_revisions(
    cards: Iterable[tuple[Card, list[dict[str, Any]], list[CardLine]]],
    reason: RevisionReason,
    actor: Actor,
    change: DoorChange | None = None,
) -> None:
    """Write one revision per card, with its layout and lines, and make it the card's current one."""
    cards = list(cards)
    made_at = now()
    revisions = CardRevision.objects.bulk_create(
        CardRevision(
            card=card,
            number=card.revision_number,
            reason=reason,
            layout=layout,
            change=change,
            made_at=made_at,
            made_by_id=actor.user_id,
        )
        for card, layout, _ in cards
    )
    lines = []
    for revision, (_, _, own) in zip(revisions, cards, strict=True):
        for position, line in enumerate(own):
            line.pk, line.revision, line.position = None, revision, position
            lines.append(line)
    CardLine.objects.bulk_create(lines, batch_size=200)


def layout_of(card: ResolvedCard) -> list[dict[str, Any]]:
    return [group_plan(resolved.group) for resolved in card.groups]


def group_plan(group: GroupFacts) -> dict[str, Any]:
    return {
        "key": group.key,
        "label": group.label,
        "segment": group.segment,
        "minutes": group.segment_minutes,
        "is_optional": group.is_optional,
        "rounds_min": group.rounds_min,
        "rounds_max": group.rounds_max,
        "rest_min_s": group.rest_min_s,
        "rest_max_s": group.rest_max_s,
        "rest_note": group.rest_note,
        "rest_after_s": group.rest_after_s,
        "intent": group.intent,
    }


def lines_of(card: ResolvedCard) -> list[CardLine]:
    return [snapshot(group, line) for group in card.groups for line in group.lines]


def snapshot(resolved: ResolvedGroup, line: ResolvedLine) -> CardLine:
    dose, exercise = line.dose, line.exercise
    return CardLine(
        line_key=line.line.key,
        group_key=resolved.group.key,
        segment=resolved.group.segment,
        label=line.label,
        status=LineStatus(line.status),
        written_exercise_id=line.written_id,
        **_exercise_columns(exercise, line.line.directions),
        sets=line.line.sets,
        dose_kind=dose.kind,
        low=dose.low,
        high=dose.high,
        per=dose.per,
        directions=list(line.line.directions),
        tempo=dose.tempo or "",
        cue=line.line.cue if exercise.id == line.written_id else "",  # written for another exercise
        rest_after_s=line.line.rest_after_s,
        **_load_columns(line),
    )


def _exercise_columns(exercise: ExerciseFacts, directions: tuple[str, ...]) -> dict[str, Any]:
    return {
        "exercise_id": exercise.id,
        "name": exercise.name,
        "cues": [
            text for direction, text in exercise.cues if not direction or not directions or direction in directions
        ],
        "measure": exercise.measure,
        "load_meaning": exercise.load_meaning,
        "laterality": exercise.laterality,
        "spotting": exercise.spotting,
        "patterns": list(exercise.patterns),
        "regions": [[load.region, load.side_sense] for load in exercise.regions],
    }


def _load_columns(line: ResolvedLine) -> dict[str, Any]:
    return {
        "load_rule": line.rule,
        "load_value": line.load.value if line.load else None,
        "load_unit": line.load.unit if line.load else "",
        "load_high": line.load_high.value if line.load_high else None,
        "load_words": line.words,
        "rir_half": line.rir_half,
        "ramp_ups": [[str(mass.value), mass.unit, reps] for mass, reps in line.ramp_ups],
        "plates": _plates(line) if line.bar else {},
        "steps": [[str(mass.value), mass.unit] for mass in line.steps],
        "last": _last(line.last),
        "trace": [_trace(step) for step in line.trace],
    }


def _plates(line: ResolvedLine) -> dict[str, Any]:
    """The bar, and the plates of one side: of the load, and of each ramp-up set."""
    return {
        "bar": line.bar,
        "per_side": [str(plate) for plate in line.per_side],
        "ramp_ups": [[str(plate) for plate in plates] for plates in line.ramp_plates],
    }


def _last(done: DoneSet | None) -> dict[str, Any] | None:
    if done is None or done.load is None:
        return None
    return {
        "value": str(done.load.value),
        "unit": done.load.unit,
        "reps": done.reps,
        "on": done.on_date.isoformat(),
    }


def _trace(step: Note) -> dict[str, Any]:
    return {"code": step.code, "params": dict(step.params), "entries": list(step.entry_ids)}
