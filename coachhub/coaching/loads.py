"""The load of one line: from the rule, held by the limits, down to what the room can make. Every step is traced."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import ROUND_DOWN, Decimal

from coachhub.coaching.evidence import (
    is_new_to_weights,
    last_set,
    on_scale,
    one_rm_kg,
    percent_at,
    proofs,
    sets_here,
)
from coachhub.coaching.facts import AthleteFacts, DayFacts, DoneSet, ExerciseFacts, Mass, Note, VenueFacts, note
from coachhub.coaching.helped import plan_help
from coachhub.coaching.load_cases import STEPS_EACH_WAY, Case, LoadPlan, Target
from coachhub.coaching.load_limits import limits_of
from coachhub.coaching.notation import Dose
from coachhub.coaching.rungs import Ladder, Rung, around, at_or_below, is_numbered, ladder_for
from coachhub.coaching.slips import believed
from coachhub.science.units import convert


def plan_load(
    exercise: ExerciseFacts,
    dose: Dose,
    athlete: AthleteFacts,
    venue: VenueFacts,
    day: DayFacts,
    *,
    is_swapped: bool,
    percent: int = 100,
) -> LoadPlan:
    """Return the load for one line. A swapped exercise never inherits a load: it starts from its own history.

    `percent`: how much of what would be asked for otherwise, for somebody who comes back. Assistance is not eased: less
    of it is harder, and more is theirs to take.
    """
    ladder = ladder_for(exercise, venue.stock)
    everything = on_scale(sets_here(exercise, athlete, venue), ladder)
    sets, doubts = _evidence(exercise, athlete, everything)
    last = last_set(sets)
    if exercise.load_meaning == "none" or (dose.rule == "none" and not is_swapped):
        return LoadPlan("none", last=last)
    best = None if exercise.load_meaning in ("machine", "assistance") else athlete.bests.get(exercise.id)
    proven = proofs(sets, best, dose)
    case = Case(exercise, dose, athlete, venue, day, is_swapped, ladder, last, proven)
    target = _on_this_scale(case, _target(case))
    if exercise.load_meaning == "assistance":
        return plan_help(case, target)
    if target.kg is not None and not case.found:
        # What is doubted raises no load, but it still bounds one that is written.
        case = replace(case, found=proofs(everything, best, dose))
    plan = _settle(case, _share_of(target, percent))
    return replace(plan, trace=(*plan.trace, *doubts)) if doubts else plan


def _evidence(
    exercise: ExerciseFacts, athlete: AthleteFacts, sets: Sequence[DoneSet]
) -> tuple[Sequence[DoneSet], tuple[Note, ...]]:
    """The sets without what looks like a slip of the pen, and a note on the latest of those. Less help is no slip."""
    if exercise.load_meaning == "assistance":
        return sets, ()
    told = [facts.get(exercise.id) for facts in (athlete.bests, athlete.starts)]
    known_kg = max((best.load.kg for best in told if best), default=None)
    kept, doubted = believed(sets, known_kg, is_new=is_new_to_weights(athlete))
    if doubted is None or doubted.load is None:
        return kept, ()
    load = doubted.load
    return kept, (note("doubted", doubted.entry_id, value=load.value, unit=load.unit, on=doubted.on_date.isoformat()),)


def _target(case: Case) -> Target:
    rule = case.dose.rule
    if case.is_swapped and rule in ("none", "fixed", "words"):
        return _as_last(case, note("swap_no_load"))
    if case.athlete.is_guest and rule == "fixed":
        return _as_last(case, note("guest_load"))
    match rule:
        case "fixed":
            return _fixed(case.dose)
        case "percent":
            return _by_percent(case)
        case "rir":
            return _by_reserve(case)
        case "last":
            return _as_last(case)
        case "words":
            return Target("words")
        case _:
            return Target("find")


def _share_of(target: Target, percent: int) -> Target:
    if target.kg is None or percent == 100:
        return target
    high_kg = target.high_kg * percent / 100 if target.high_kg is not None else None
    return replace(target, kg=target.kg * percent / 100, high_kg=high_kg)


def _fixed(dose: Dose) -> Target:
    unit = dose.load_unit or "kg"
    low = Mass(dose.load or Decimal(0), unit)
    high = Mass(dose.load_high, unit).kg if dose.load_high is not None else None
    return Target("fixed", low.kg, high, (note("fixed", value=low.value, unit=unit),))


def _one_rm(case: Case) -> tuple[Decimal, Note] | None:
    best = case.athlete.bests.get(case.exercise.id)
    # Where no ladder is known a percentage would give grams of a packed bag.
    if best is None or case.ladder is None or case.exercise.load_meaning in ("machine", "assistance"):
        return None
    maximum = one_rm_kg(best)
    if maximum is None:
        return None
    told = note(
        "known_best",
        best=best.id,
        value=best.load.value,
        unit=best.load.unit,
        reps=best.reps,
        rir_half=best.rir_half,
        on=best.on_date.isoformat(),
        max_kg=round(maximum, 1),
    )
    return maximum, told


def _by_percent(case: Case) -> Target:
    known = _one_rm(case)
    percent = case.dose.percent
    if known is None or percent is None:
        return _as_last(case, note("no_known_best"))
    maximum, told = known
    high = maximum * case.dose.percent_high / 100 if case.dose.percent_high else None
    return Target("percent", maximum * percent / 100, high, (told, note("percent", percent=percent)))


def _by_reserve(case: Case) -> Target:
    if not case.athlete.is_rir_taught:
        return _as_last(case, note("rir_not_taught"))
    known, percent = _one_rm(case), percent_at(case.dose)
    if known is None or percent is None:
        return _as_last(case, note("no_known_best"))
    maximum, told = known
    by_table = note("rir_percent", percent=percent, reps=case.dose.high or case.dose.low, rir_half=case.dose.rir_half)
    return Target("rir", maximum * percent / 100, None, (told, by_table))


def _as_last(case: Case, *before: Note) -> Target:
    last = case.last
    if last is not None and last.load is not None:
        told = note(
            "last_time",
            last.entry_id,
            value=last.load.value,
            unit=last.load.unit,
            reps=last.reps,
            on=last.on_date.isoformat(),
        )
        return Target("last", last.load.kg, None, (*before, told))
    start = case.athlete.starts.get(case.exercise.id)
    if start is not None and case.exercise.load_meaning not in ("machine", "assistance"):
        return Target(
            "fixed", start.load.kg, None, (*before, note("start_load", value=start.load.value, unit=start.load.unit))
        )
    return Target("find", None, None, (*before, note("no_history")))


def _on_this_scale(case: Case, target: Target) -> Target:
    """A stack of numbered plates cannot be told in kilograms: what is written so is found out here instead."""
    if target.rule != "fixed" or not is_numbered(case.ladder):
        return target
    return Target("find", None, None, (*target.trace, note("numbered_plates")))


def _settle(case: Case, target: Target) -> LoadPlan:
    """Hold the target under its limits and put it on the room's ladder."""
    limits = limits_of(case)
    if target.kg is None:
        return _without_number(case, target, limits)
    kg, trace = target.kg, list(target.trace)
    for limit, told in sorted(limits, key=lambda pair: pair[0], reverse=True):
        if limit < kg:
            kg, trace = limit, [*trace, told]
    high_kg = min([target.high_kg, *(limit for limit, _ in limits)]) if target.high_kg else None
    if case.ladder is None:
        return _as_written(case, target, kg, trace)
    rung = at_or_below(kg, case.ladder)
    if rung is None:
        return _too_light(case, target, trace)
    if rung.kg < kg:
        trace.append(note("rounded_down", value=rung.mass.value, unit=rung.mass.unit))
    high = at_or_below(high_kg, case.ladder) if high_kg else None
    return _on_rung(case, target, rung, high, trace)


def _on_rung(case: Case, target: Target, rung: Rung, high: Rung | None, trace: list[Note]) -> LoadPlan:
    ladder = case.ladder or ()
    return LoadPlan(
        target.rule,
        rung.mass,
        high.mass if high and high.kg > rung.kg else None,
        per_side=rung.per_side,
        bar=rung.bar,
        steps=tuple([r.mass for r in around(rung.kg, ladder, STEPS_EACH_WAY)]),
        last=case.last,
        trace=tuple(trace),
    )


def _too_light(case: Case, target: Target, trace: list[Note]) -> LoadPlan:
    lightest = case.ladder[0].mass if case.ladder else None
    if lightest is None:
        return LoadPlan("find", last=case.last, trace=(*trace, note("nothing_to_load")), is_too_light=True)
    told = note("below_lightest", value=lightest.value, unit=lightest.unit)
    return LoadPlan("find", last=case.last, trace=(*trace, told), is_too_light=True)


def _as_written(case: Case, target: Target, kg: Decimal, trace: list[Note]) -> LoadPlan:
    """A machine or cable: the number as written or as last time here; its scale is not known to us."""
    last = case.last
    unit = case.dose.load_unit or case.venue.unit
    mass = last.load if target.rule == "last" and last and last.load else Mass(case.dose.load or kg, unit)
    if mass.kg > kg and mass.unit != "pl":
        mass = Mass(convert(kg, "kg", mass.unit).quantize(Decimal("0.01"), ROUND_DOWN), mass.unit)
    return LoadPlan(target.rule, mass, last=last, trace=tuple(trace))


def _without_number(case: Case, target: Target, limits: list[tuple[Decimal, Note]]) -> LoadPlan:
    """Words, or "find it": the limits are told as "at most", and the steps start at the lightest."""
    ladder = case.ladder or ()
    most = min(limits, key=lambda pair: pair[0], default=None)
    reach = tuple(r for r in ladder if most is None or r.kg <= most[0])
    trace = (*target.trace, *((most[1],) if most else ()))
    if case.ladder is not None and not reach:
        return _too_light(case, target, list(trace))
    low, high = _worded_range(case, reach)
    return LoadPlan(
        target.rule,
        low,
        high,
        words=case.dose.words or "",
        steps=tuple(r.mass for r in reach[: 2 * STEPS_EACH_WAY + 1]),
        last=case.last,
        trace=trace,
    )


def _worded_range(case: Case, reach: Ladder) -> tuple[Mass | None, Mass | None]:
    """The range that goes with the words, on the room's ladder and under every limit."""
    if case.dose.rule != "words" or case.is_swapped or case.dose.load is None or not reach or is_numbered(reach):
        return None, None
    unit = case.dose.load_unit or "kg"
    low = at_or_below(Mass(case.dose.load, unit).kg, reach) or reach[0]
    high = at_or_below(Mass(case.dose.load_high, unit).kg, reach) if case.dose.load_high else None
    return low.mass, high.mass if high and high.kg > low.kg else None
