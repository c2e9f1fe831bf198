"""Assistance: what carries part of the body. Less of it is harder, so limits hold it from below."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

from coachhub.coaching.evidence import is_new_to_weights
from coachhub.coaching.facts import Mass, Note, note
from coachhub.coaching.limits import RISE_DAYS
from coachhub.coaching.load_cases import STEPS_EACH_WAY, Case, LoadPlan, Target
from coachhub.coaching.obstacles import held_by_pain
from coachhub.coaching.rungs import Rung, around


def plan_help(case: Case, target: Target) -> LoadPlan:
    """Return the assistance for one line: as asked for, never so little that a limit forbids it."""
    limits = _limits(case)
    least = max(limits, key=lambda pair: pair[0].kg, default=None)
    if target.kg is None:
        return _without_number(case, target, least)
    asked = _as_asked(case, target)
    if least is None or asked.kg >= least[0].kg:
        return _on_scale(case, target, asked, ())
    return _on_scale(case, target, least[0], (least[1],))


def _limits(case: Case) -> list[tuple[Mass, Note]]:
    """Every assistance that this line must not go below, with the note that says so."""
    limits = []
    if (pain := held_by_pain(case.exercise, case.athlete)) and case.last and case.last.load:
        told = note("pain_hold", case.last.entry_id, pain=pain.id, region=pain.region, score=pain.score)
        limits.append((case.last.load, told))
    return [*limits, *_proven_limit(case)]


def _proven_limit(case: Case) -> list[tuple[Mass, Note]]:
    """At most one step less than the least really done; new to weights: after a clean set, once in seven days."""
    found = [(s.load, s) for s in case.found if s.load is not None]
    if not found:
        return []
    mass, top = min(found, key=lambda pair: (pair[0].kg, pair[1].is_clean is not True))
    told = {"value": mass.value, "unit": mass.unit}
    if is_new_to_weights(case.athlete):
        since = case.day.on_date - timedelta(days=RISE_DAYS)
        before = [load.kg for load, s in found if s.on_date <= since]
        if before and min(before) > mass.kg:
            return [(mass, note("one_easing_a_week", top.entry_id, **told))]
        if top.is_clean is not True:
            return [(mass, note("easing_wants_clean", top.entry_id, **told))]
    below = [rung.mass for rung in case.ladder or () if rung.kg < mass.kg]
    return [(below[-1] if below else mass, note("one_step_less", top.entry_id, **told))]


def _as_asked(case: Case, target: Target) -> Mass:
    last = case.last
    if target.rule == "last" and last and last.load:
        return last.load
    return Mass(case.dose.load or target.kg or Decimal(0), case.dose.load_unit or case.venue.unit)


def _on_scale(case: Case, target: Target, mass: Mass, told: tuple[Note, ...]) -> LoadPlan:
    """On the machine's scale, at or above what is asked for: rounding must not make it harder."""
    trace = (*target.trace, *told)
    if not case.ladder:
        return LoadPlan(target.rule, mass, last=case.last, trace=trace)
    rung = next((rung for rung in case.ladder if rung.kg >= mass.kg), case.ladder[-1])
    if rung.kg != mass.kg:
        trace = (*trace, note("help_rounded", value=rung.mass.value, unit=rung.mass.unit))
    steps = tuple([r.mass for r in around(rung.kg, case.ladder, STEPS_EACH_WAY)])
    return LoadPlan(target.rule, rung.mass, steps=steps, last=case.last, trace=trace)


def _without_number(case: Case, target: Target, least: tuple[Mass, Note] | None) -> LoadPlan:
    """Words, or "find it": the most help first, down to what the limits allow."""
    floor = least[0].kg if least else Decimal(0)
    reach: list[Rung] = [rung for rung in reversed(case.ladder or ()) if rung.kg >= floor]
    return LoadPlan(
        target.rule,
        words=case.dose.words or "",
        steps=tuple([rung.mass for rung in reach[: 2 * STEPS_EACH_WAY + 1]]),
        last=case.last,
        trace=(*target.trace, *((least[1],) if least else ())),
    )
