"""A resolved line as it would stand on a card, so that a preview and the card use the same words."""

from __future__ import annotations

from decimal import Decimal

from coachhub.cards.sheet import LastTime, SheetLine
from coachhub.coaching.facts import DoneSet, Mass
from coachhub.coaching.resolve import ResolvedCard, ResolvedLine


def line_to_be(resolved: ResolvedLine) -> SheetLine:
    """Return the line without key in the database and without sets done."""
    exercise, dose = resolved.exercise, resolved.dose
    return SheetLine(
        pk=0,
        key=resolved.line.key,
        label=resolved.label,
        name=exercise.name,
        written_name=_written_name(resolved),
        exercise_id=exercise.id,
        is_dropped=resolved.status == "dropped",
        sets=resolved.line.sets,
        dose_kind=dose.kind,
        low=Decimal(dose.low),
        high=None if dose.high is None else Decimal(dose.high),
        per=dose.per,
        directions=resolved.line.directions,
        measure=exercise.measure,
        laterality=exercise.laterality,
        load_meaning=exercise.load_meaning,
        load_rule=resolved.rule,
        load=resolved.load,
        load_high=resolved.load_high,
        load_words=resolved.words,
        rir_half=resolved.rir_half,
        tempo=dose.tempo or "",
        cue=resolved.line.cue if exercise.id == resolved.written_id else "",
        cues=(),
        spotting=exercise.spotting,
        rest_after_s=resolved.line.rest_after_s,
        ramp_ups=resolved.ramp_ups,
        bar=resolved.bar,
        per_side=resolved.per_side,
        steps=resolved.steps,
        last=_last(resolved.last),
        trace=resolved.trace,
        cells=(),
    )


def eased_after(card: ResolvedCard) -> int:
    """Return the days of the longest break after which a line of the card is eased; 0 without one."""
    breaks = (dict(step.params)["days"] for line in card.lines for step in line.trace if step.code == "after_gap")
    return max((int(days) for days in breaks), default=0)


def _written_name(resolved: ResolvedLine) -> str:
    """A swapped line's trace names what was written."""
    told = (dict(step.params)["written"] for step in resolved.trace if step.code == "swapped")
    return next(told, resolved.exercise.name)


def _last(done: DoneSet | None) -> LastTime | None:
    if done is None or done.load is None:
        return None
    return LastTime(Mass(done.load.value, done.load.unit), done.reps, done.on_date)
