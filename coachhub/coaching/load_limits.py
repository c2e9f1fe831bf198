"""What a load must not go over, whatever the rule says."""

from __future__ import annotations

from decimal import Decimal

from coachhub.coaching.evidence import NO_ENTRY, has_risen_lately, heaviest, is_new_to_weights
from coachhub.coaching.facts import Mass, Note, note
from coachhub.coaching.load_cases import Case
from coachhub.coaching.obstacles import held_by_pain, load_caps
from coachhub.coaching.rungs import above, is_numbered


def limits_of(case: Case) -> list[tuple[Decimal, Note]]:
    """Every mass this line must not go over, in kg, with the note that says so."""
    limits = [(mass.kg, told) for mass, told in load_caps(case.exercise, case.athlete)]
    if case.dose.ceiling is not None:
        ceiling = Mass(case.dose.ceiling, case.dose.load_unit or "kg")
        limits.append((ceiling.kg, note("ceiling", value=ceiling.value, unit=ceiling.unit)))
    if limits and case.ladder and is_numbered(case.ladder):
        # Nobody knows what a numbered plate weighs, so under a limit in kilograms only the first is sure enough.
        limits = [(case.ladder[0].kg, told) for _kg, told in limits]
    pain, last = held_by_pain(case.exercise, case.athlete), case.last
    if pain is not None and last is not None and last.load is not None:
        limits.append(
            (last.load.kg, note("pain_hold", last.entry_id, pain=pain.id, region=pain.region, score=pain.score))
        )
    return [*limits, *_proven_limit(case)]


def _proven_limit(case: Case) -> list[tuple[Decimal, Note]]:
    """Never more than one step above the heaviest load completed for about those reps, whatever the rule says.

    Someone new to weights, or a minor: a step only after a set marked clean, and one rise in seven days.
    """
    top = heaviest(case.found)
    if top is None or top.load is None:
        return []
    mass, entries = top.load, (top.entry_id,) if top.entry_id != NO_ENTRY else ()
    told = {"value": mass.value, "unit": mass.unit, "reps": top.reps}
    if is_new_to_weights(case.athlete):
        if has_risen_lately(case.found, case.day.on_date):
            return [(mass.kg, note("one_rise_a_week", *entries, **told))]
        if top.is_clean is not True:
            return [(mass.kg, note("rise_wants_clean", *entries, **told))]
    step = above(mass.kg, case.ladder) if case.ladder is not None else None
    limit = step.kg if step is not None else mass.kg
    return [(limit, note("one_step", *entries, **told))]
