"""Session + athlete + venue + day = card: per line the exercise, the dose, the load, and why each differs.

The order of decisions on a line: what restrictions, pain, supervision and stock say against the exercise; then the
coach's swaps in their order; else the line is left out, with the reason. Then the load (`coaching.loads`).
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Final, Literal

from coachhub.coaching.facts import (
    AthleteFacts,
    DayFacts,
    DoneSet,
    ExerciseFacts,
    GroupFacts,
    LineFacts,
    Mass,
    Note,
    SessionFacts,
    VenueFacts,
    note,
)
from coachhub.coaching.load_cases import LoadPlan
from coachhub.coaching.loads import plan_load
from coachhub.coaching.notation import Dose, LoadRule
from coachhub.coaching.obstacles import obstacles
from coachhub.coaching.rungs import Rung, at_or_below, ladder_for

# Shares of the working load for ramp-up sets, lightest first (common practice).
RAMP_SHARES: Final[dict[int, tuple[int, ...]]] = {
    1: (60,),
    2: (50, 75),
    3: (40, 60, 80),
    4: (40, 55, 70, 85),
    5: (35, 50, 65, 75, 85),
    6: (30, 40, 55, 65, 75, 85),
}
RAMP_REPS: Final = 5


@dataclass(frozen=True, slots=True)
class ResolvedLine:
    """One line of a card; `exercise` is what is trained, `written_id` what the session says."""

    line: LineFacts
    label: str
    status: Literal["planned", "dropped"]
    exercise: ExerciseFacts
    written_id: int
    rule: LoadRule
    load: Mass | None = None
    load_high: Mass | None = None
    words: str = ""
    rir_half: int | None = None
    per_side: tuple[Decimal, ...] = ()
    bar: str = ""
    steps: tuple[Mass, ...] = ()
    ramp_ups: tuple[tuple[Mass, int], ...] = ()
    ramp_plates: tuple[tuple[Decimal, ...], ...] = ()
    last: DoneSet | None = None
    trace: tuple[Note, ...] = ()

    @property
    def dose(self) -> Dose:
        return self.line.dose


@dataclass(frozen=True, slots=True)
class ResolvedGroup:
    group: GroupFacts
    lines: tuple[ResolvedLine, ...]


@dataclass(frozen=True, slots=True)
class ResolvedCard:
    groups: tuple[ResolvedGroup, ...]

    @property
    def lines(self) -> tuple[ResolvedLine, ...]:
        return tuple(line for group in self.groups for line in group.lines)


@dataclass(frozen=True, slots=True)
class Given:
    """Who trains, where, on which day."""

    athlete: AthleteFacts
    venue: VenueFacts
    day: DayFacts


def resolve(session: SessionFacts, athlete: AthleteFacts, venue: VenueFacts, day: DayFacts) -> ResolvedCard:
    """Return the athlete's card. Pure: the same facts give the same card."""
    given = Given(athlete, venue, day)
    taken = {line.exercise_id for group in session.groups for line in group.lines}
    groups = []
    for group in session.groups:
        lines = []
        for place, line in enumerate(group.lines, 1):
            resolved = resolve_line(session, line, f"{group.label}{place}", given, frozenset(taken))
            taken.add(resolved.exercise.id)
            lines.append(resolved)
        groups.append(ResolvedGroup(group, tuple(lines)))
    return ResolvedCard(tuple(groups))


def resolve_line(
    session: SessionFacts, line: LineFacts, label: str, given: Given, taken: frozenset[int]
) -> ResolvedLine:
    """Return one line; a swap is never one of the exercises that are `taken` on this card already."""
    exercise = session.exercises[line.exercise_id]
    against = (*line.against, *obstacles(exercise, line.dose, given.athlete, given.venue))
    plan = None if against else _plan(exercise, line, given, is_swapped=False)
    if plan is not None and not plan.is_too_light:
        return _planned(line, label, exercise, plan, given)
    swapped = _first_swap(session, line, label, given, taken=taken, reasons=plan.trace if plan else against)
    if swapped is not None:
        return swapped
    if plan is not None:
        # Nothing here is light enough, and no swap helps: the athlete is told to ask, not given the bar.
        return _planned(line, label, exercise, replace(plan, trace=(*plan.trace, note("ask_for_lighter"))), given)
    is_block_off = any(step.code == "door_block" for step in line.against)
    trace = against if is_block_off else (*against, note("dropped", written=exercise.name))
    return ResolvedLine(line, label, "dropped", exercise, exercise.id, "none", trace=trace)


def _first_swap(
    session: SessionFacts,
    line: LineFacts,
    label: str,
    given: Given,
    *,
    taken: frozenset[int],
    reasons: tuple[Note, ...],
) -> ResolvedLine | None:
    written = session.exercises[line.exercise_id]
    for swap_id in line.swap_ids:
        swap = session.exercises[swap_id]
        if swap_id in taken or obstacles(swap, line.dose, given.athlete, given.venue):
            continue
        plan = _plan(swap, line, given, is_swapped=True)
        if not plan.is_too_light:
            told = note("swapped", written=written.name, to=swap.name)
            return _planned(line, label, swap, replace(plan, trace=(*reasons, told, *plan.trace)), given)
    return None


def _plan(exercise: ExerciseFacts, line: LineFacts, given: Given, *, is_swapped: bool) -> LoadPlan:
    return plan_load(exercise, line.dose, given.athlete, given.venue, given.day, is_swapped=is_swapped)


def _planned(line: LineFacts, label: str, exercise: ExerciseFacts, plan: LoadPlan, given: Given) -> ResolvedLine:
    ramps = _ramp_ups(line, exercise, plan, given.venue)
    return ResolvedLine(
        line,
        label,
        "planned",
        exercise,
        line.exercise_id,
        plan.rule,
        load=plan.load,
        load_high=plan.load_high,
        words=plan.words,
        rir_half=line.dose.rir_half if given.athlete.is_rir_taught else None,
        per_side=plan.per_side,
        bar=plan.bar,
        steps=plan.steps,
        ramp_ups=tuple((rung.mass, reps) for rung, reps in ramps),
        ramp_plates=tuple(rung.per_side for rung, _ in ramps),
        last=plan.last,
        trace=plan.trace,
    )


def _ramp_ups(
    line: LineFacts, exercise: ExerciseFacts, plan: LoadPlan, venue: VenueFacts
) -> tuple[tuple[Rung, int], ...]:
    """Lighter sets before the first hard one, each a load the room can make, none twice."""
    if not line.ramp_up_sets or plan.load is None or exercise.load_meaning == "assistance":
        return ()
    ladder = ladder_for(exercise, venue.stock)
    if not ladder:
        return ()
    ramps: list[tuple[Rung, int]] = []
    for share in RAMP_SHARES[line.ramp_up_sets]:
        rung = at_or_below(plan.load.kg * share / 100, ladder) or ladder[0]
        reps = min(RAMP_REPS, int(line.dose.high or line.dose.low)) if line.dose.kind == "reps" else RAMP_REPS
        if rung.kg < plan.load.kg and rung not in [before for before, _ in ramps]:
            ramps.append((rung, reps))
    return tuple(ramps)
