"""Session + athlete + venue + day = card: per line the exercise, the dose, the load, and why each differs.

The athlete's own activation work joins first, and whoever comes back has fewer sets. The order of decisions on a line:
the athlete's level picks the variation; what restrictions, pain, supervision and stock say against it; then the
coach's swaps in their order, those of the library, and what keeps the purpose best (`coaching.swaps`); else the line
is left out, with the reason. Then the load (`coaching.loads`). A primary pattern that nothing covers any more is told.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Final, Literal

from coachhub.coaching.coverage import COUNTED_PARTS, lost_patterns
from coachhub.coaching.easing import Ease, ease_of, eased_group
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
from coachhub.coaching.levels import at_level
from coachhub.coaching.load_cases import LoadPlan
from coachhub.coaching.loads import plan_load
from coachhub.coaching.notation import Dose, LoadRule
from coachhub.coaching.obstacles import obstacles
from coachhub.coaching.own_work import with_own_work
from coachhub.coaching.rungs import Rung, at_or_below, ladder_for, on_bar
from coachhub.coaching.swaps import Instead, alternatives, as_instead, listed_swaps

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
    """Who trains what, where, on which day."""

    session: SessionFacts
    athlete: AthleteFacts
    venue: VenueFacts
    day: DayFacts


@dataclass(frozen=True, slots=True)
class Asked:
    """One line's question: `first` is what it asks of this athlete, `taken` what is on the card already."""

    given: Given
    line: LineFacts
    label: str
    first: ExerciseFacts
    ease: Ease | None
    taken: frozenset[int]

    def plan(self, exercise: ExerciseFacts, line: LineFacts, *, is_swapped: bool) -> LoadPlan:
        given, ease = self.given, self.ease
        percent = ease.share.load if ease else 100
        plan = plan_load(
            exercise, line.dose, given.athlete, given.venue, given.day, is_swapped=is_swapped, percent=percent
        )
        return replace(plan, trace=(*ease.trace, *plan.trace)) if ease else plan

    def obstacles(self, exercise: ExerciseFacts, line: LineFacts) -> tuple[Note, ...]:
        return obstacles(exercise, line.dose, self.given.athlete, self.given.venue)

    def planned(
        self, plan: LoadPlan, exercise: ExerciseFacts, line: LineFacts, before: tuple[Note, ...] = ()
    ) -> ResolvedLine:
        plan = replace(plan, trace=(*before, *plan.trace)) if before else plan
        return _planned(line, self.label, exercise, plan, self.given)


def resolve(session: SessionFacts, athlete: AthleteFacts, venue: VenueFacts, day: DayFacts) -> ResolvedCard:
    """Return the athlete's card. Pure: the same facts give the same card."""
    given = Given(session_of(session, athlete), athlete, venue, day)
    taken = {line.exercise_id for group in given.session.groups for line in group.lines}
    groups = []
    for group in given.session.groups:
        lines = []
        for place, line in enumerate(group.lines, 1):
            first, chosen = at_level(given.session, line, athlete)
            ease = ease_of(first, athlete) if group.segment in COUNTED_PARTS else None
            asked = Asked(given, line, f"{group.label}{place}", first, ease, frozenset(taken))
            resolved = _resolve_line(asked)
            taken.add(resolved.exercise.id)
            lines.append(replace(resolved, trace=(*chosen, *resolved.trace)) if chosen else resolved)
        groups.append(ResolvedGroup(group, tuple(lines)))
    return ResolvedCard(_with_losses(tuple(groups), given.session))


def session_of(session: SessionFacts, athlete: AthleteFacts) -> SessionFacts:
    """Return the session as this athlete has it: with their own activation work, eased where they come back."""
    if athlete.own_work:
        own = {item.exercise.id: item.exercise for item in athlete.own_work}
        groups = with_own_work(session.groups, athlete.own_work)
        session = replace(session, groups=groups, exercises={**session.exercises, **own})
    if athlete.return_stage or athlete.gaps:
        session = replace(session, groups=tuple(eased_group(group, session, athlete) for group in session.groups))
    return session


def is_left_out_at_door(line: LineFacts) -> bool:
    return any(step.code == "door_block" for step in line.against)


def _resolve_line(asked: Asked) -> ResolvedLine:
    line, first = asked.line, asked.first
    against = (*line.against, *asked.obstacles(first, line))
    plan = None if against else asked.plan(first, line, is_swapped=first.id != line.exercise_id)
    if plan is not None and not plan.is_too_light:
        return asked.planned(plan, first, line)
    swapped = _instead(asked, plan.trace if plan else against)
    if swapped is not None:
        return swapped
    if plan is not None:
        # Nothing here is light enough, and no swap helps: the athlete is told to ask, not given the bar.
        return asked.planned(replace(plan, trace=(*plan.trace, note("ask_for_lighter"))), first, line)
    trace = against if is_left_out_at_door(line) else (*against, note("dropped", written=first.name))
    return ResolvedLine(line, asked.label, "dropped", first, line.exercise_id, "none", trace=trace)


def _instead(asked: Asked, reasons: tuple[Note, ...]) -> ResolvedLine | None:
    if is_left_out_at_door(asked.line):
        return None
    for instead in _candidates(asked, reasons):
        plan = asked.plan(instead.exercise, instead.line, is_swapped=True)
        if not plan.is_too_light:
            return asked.planned(plan, instead.exercise, instead.line, (*reasons, *instead.trace))
    return None


def _candidates(asked: Asked, reasons: tuple[Note, ...]) -> Iterator[Instead]:
    """What may stand in and nothing stands against, the first choice first; what came close is of that kind too."""
    session, line, first = asked.given.session, asked.line, asked.first
    for listed in listed_swaps(session, line, first, reasons, asked.taken):
        if not asked.obstacles(listed.exercise, listed.line):
            yield listed
    ranked = [one for one in alternatives(session.library, line, first, asked.taken) if not asked.obstacles(one, line)]
    for place in range(len(ranked)):
        yield as_instead(line, first, ranked[place:])


def _with_losses(groups: tuple[ResolvedGroup, ...], session: SessionFacts) -> tuple[ResolvedGroup, ...]:
    """Return the groups with a word on each line for whose pattern nothing is left on the card."""
    counted = [line for resolved in groups if resolved.group.segment in COUNTED_PARTS for line in resolved.lines]
    written = [session.exercises[line.written_id].patterns for line in counted]
    lost = lost_patterns(written, [line.exercise.patterns for line in counted if line.status == "planned"])
    if not lost:
        return groups
    return tuple(
        replace(resolved, lines=tuple(_with_loss(line, session, lost) for line in resolved.lines))
        if resolved.group.segment in COUNTED_PARTS
        else resolved
        for resolved in groups
    )


def _with_loss(line: ResolvedLine, session: SessionFacts, lost: tuple[str, ...]) -> ResolvedLine:
    here = [pattern for pattern in lost if pattern in session.exercises[line.written_id].patterns]
    return replace(line, trace=(*line.trace, *(note("pattern_lost", pattern=pattern) for pattern in here)))


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
    """Lighter sets before the first hard one, each a load the room can make on the bar of that one, none twice."""
    if not line.ramp_up_sets or plan.load is None or exercise.load_meaning == "assistance":
        return ()
    ladder = on_bar(ladder_for(exercise, venue.stock) or (), exercise, venue.stock, plan.bar)
    if not ladder:
        return ()
    ramps: list[tuple[Rung, int]] = []
    for share in RAMP_SHARES[line.ramp_up_sets]:
        rung = at_or_below(plan.load.kg * share / 100, ladder) or ladder[0]
        reps = min(RAMP_REPS, int(line.dose.high or line.dose.low)) if line.dose.kind == "reps" else RAMP_REPS
        if rung.kg < plan.load.kg and rung not in [before for before, _ in ramps]:
            ramps.append((rung, reps))
    return tuple(ramps)
