"""What stands against an exercise for this athlete at this venue. Fails closed."""

from __future__ import annotations

from typing import Final

from coachhub.coaching.facts import (
    AthleteFacts,
    BodySide,
    ExerciseFacts,
    Mass,
    Note,
    PainFacts,
    RegionLoad,
    RestrictionFacts,
    VenueFacts,
    note,
)
from coachhub.coaching.limits import MAXIMAL_AGE, pain_stop
from coachhub.coaching.notation import Dose

BOTH_SIDES: Final = frozenset(("left", "right"))
_FLAGS: Final = {"impact": "is_impact", "overhead": "is_overhead", "grip": "is_grip", "range": "is_deep_range"}
# A single this near to the maximum is a maximal test in all but name (rep-max table: 95 % is a two-repetition load).
_MAXIMAL_PERCENT: Final = 95


def obstacles(exercise: ExerciseFacts, dose: Dose, athlete: AthleteFacts, venue: VenueFacts) -> tuple[Note, ...]:
    """Return every reason against, as notes; empty where the exercise may be planned."""
    return (
        *(n for r in athlete.restrictions if (n := _restricted(exercise, r))),
        *(n for p in athlete.pains if (n := _hurts(exercise, p, pain_stop(athlete.is_minor)))),
        *_unsuited(exercise, dose, athlete, venue),
        *_missing_equipment(exercise, venue),
    )


def health_obstacles(exercise: ExerciseFacts, athlete: AthleteFacts) -> tuple[Note, ...]:
    """Return only what the athlete's restrictions and pain say against an exercise."""
    stop = pain_stop(athlete.is_minor)
    return (
        *(n for r in athlete.restrictions if (n := _restricted(exercise, r))),
        *(n for p in athlete.pains if (n := _hurts(exercise, p, stop))),
    )


def loads_region(exercise: ExerciseFacts, region: str, side: BodySide, worked: frozenset[str] = BOTH_SIDES) -> bool:
    """Whether the exercise loads that side of that region when the `worked` sides work.

    An exercise whose loaded regions nobody has reviewed counts as loading everything.
    """
    if not exercise.is_regions_reviewed:
        return True
    wanted = BOTH_SIDES if side == "both" else frozenset((side,))
    return any(load.region == region and loaded_sides(load, worked) & wanted for load in exercise.regions)


def loaded_sides(load: RegionLoad, worked: frozenset[str]) -> frozenset[str]:
    """Return the body sides that are loaded when the `worked` sides work."""
    if load.side_sense == "both":
        return BOTH_SIDES
    if load.side_sense == "working":
        return worked
    return frozenset("right" if side == "left" else "left" for side in worked)


def load_caps(exercise: ExerciseFacts, athlete: AthleteFacts) -> list[tuple[Mass, Note]]:
    """Return the masses that restrictions and their named exceptions allow at most, each with its note."""
    caps = []
    for restriction in athlete.restrictions:
        allowed, mass = _exception(exercise, restriction)
        if restriction.kind == "load_cap" and not allowed:
            mass = restriction.cap
        if mass is not None:
            caps.append((mass, note("restriction_cap", restriction=restriction.id, cap=mass.value, unit=mass.unit)))
    return caps


def held_by_pain(exercise: ExerciseFacts, athlete: AthleteFacts) -> PainFacts | None:
    """Return the uncleared pain that holds this exercise's load from rising; sore muscles do not."""
    for pain in athlete.pains:
        if pain.score > 0 and not pain.is_sore_only and loads_region(exercise, pain.region, pain.side):
            return pain
    return None


def _exception(exercise: ExerciseFacts, restriction: RestrictionFacts) -> tuple[bool, Mass | None]:
    for exercise_id, mass in restriction.exceptions:
        if exercise_id == exercise.id:
            return True, mass
    return False, None


def _restricted(exercise: ExerciseFacts, restriction: RestrictionFacts) -> Note | None:
    if _exception(exercise, restriction)[0] or not _matches(exercise, restriction):
        return None
    code = "restricted" if exercise.is_regions_reviewed else "restricted_unreviewed"
    return note(
        code,
        restriction=restriction.id,
        kind=restriction.kind,
        region=restriction.region,
        side=restriction.side,
        pattern=restriction.pattern,
    )


def _matches(exercise: ExerciseFacts, restriction: RestrictionFacts) -> bool:
    match restriction.kind:
        case "region":
            return loads_region(exercise, restriction.region, restriction.side)
        case "pattern":
            return restriction.pattern in exercise.patterns
        case "exercise":
            return restriction.exercise_id == exercise.id
        case "load_cap":
            return False
        case kind:
            return not exercise.is_regions_reviewed or bool(getattr(exercise, _FLAGS[kind]))


def _hurts(exercise: ExerciseFacts, pain: PainFacts, stop: int) -> Note | None:
    if pain.is_sore_only or pain.score < stop or not loads_region(exercise, pain.region, pain.side):
        return None
    return note("pain_off", pain=pain.id, region=pain.region, side=pain.side, score=pain.score)


def _unsuited(exercise: ExerciseFacts, dose: Dose, athlete: AthleteFacts, venue: VenueFacts) -> list[Note]:
    found = unsupervised(exercise, athlete, venue)
    if athlete.age < MAXIMAL_AGE and is_maximal(dose):
        found.append(note("maximal_young", age=MAXIMAL_AGE))
    return found


def unsupervised(exercise: ExerciseFacts, athlete: AthleteFacts, venue: VenueFacts) -> list[Note]:
    is_alone = athlete.is_minor and not venue.is_supervised
    return [note("unsupervised")] if is_alone and exercise.needs_supervision else []


def is_maximal(dose: Dose) -> bool:
    """Whether the dose asks for a single repetition at or next to the maximum."""
    if dose.kind != "reps" or dose.low > 1:
        return False
    percent = dose.percent_high or dose.percent or 0
    return percent >= _MAXIMAL_PERCENT or dose.rir_half == 0


def _missing_equipment(exercise: ExerciseFacts, venue: VenueFacts) -> list[Note]:
    return [
        note("no_equipment", kinds=",".join(group)) for group in exercise.needs if not venue.kinds.intersection(group)
    ]
