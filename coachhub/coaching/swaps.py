"""What to train instead, so that the purpose of the line is kept.

The coach's own swaps come first, in their order and across direction and pattern too; then the swaps that the library
lists for the reason at hand; then alternatives that the library holds, ranked by what they keep. An alternative is
never one whose loaded regions nobody has reviewed, never harder in its own family, and never wants a spotter where
the written exercise wants none. The order of what matters: common practice.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

from coachhub.coaching.facts import ExerciseFacts, LineFacts, Note, SessionFacts, note
from coachhub.coaching.notation import Dose

Aspect = Literal["pattern", "direction", "sides", "load"]
ASPECTS: Final[tuple[Aspect, ...]] = ("pattern", "direction", "sides", "load")
# What is told of those that came close.
CLOSE: Final = 2
_WANTS_SPOTTER: Final = frozenset({"head", "safety_arms", "clear_space", "partner"})
_REGION_CODES: Final = frozenset({"restricted", "restricted_unreviewed", "pain_off"})
_EASIER_CODES: Final = frozenset({"below_lightest", "nothing_to_load", "maximal_young", "unsupervised"})


@dataclass(frozen=True, slots=True)
class Instead:
    """An exercise in place of the written one, the line as it is then done, and why this one."""

    exercise: ExerciseFacts
    line: LineFacts
    trace: tuple[Note, ...]


def listed_swaps(
    session: SessionFacts, line: LineFacts, written: ExerciseFacts, reasons: Sequence[Note], taken: frozenset[int]
) -> Iterator[Instead]:
    """Yield the coach's swaps, then those of the library that serve one of the reasons."""
    for swap_id in line.swap_ids:
        if swap_id not in taken:
            swap = session.exercises[swap_id]
            yield Instead(swap, line, (_swapped(written, swap),))
    for listed in session.listed.get(written.id, ()):
        to = session.exercises.get(listed.to_id)
        if to is None or to.id in taken or to.id in line.swap_ids or not _serves(listed.reason, listed.region, reasons):
            continue
        if to.is_regions_reviewed and fits_dose(to, line):
            yield Instead(to, fitted(line, written, to), (_swapped(written, to), note("swap_from_library")))


def alternatives(
    library: Iterable[ExerciseFacts], line: LineFacts, written: ExerciseFacts, taken: frozenset[int]
) -> tuple[ExerciseFacts, ...]:
    """Return what the library holds for the same purpose, the best first, whatever stands against it today."""
    found = [one for one in library if one.id not in taken and one.id != written.id and _keeps(one, line, written)]
    return tuple(sorted(found, key=lambda one: _rank(one, line, written)))


def as_instead(line: LineFacts, written: ExerciseFacts, ranked: Sequence[ExerciseFacts]) -> Instead:
    """Put the first of the ranked in place of the written one: what it keeps, what it does not, what came close."""
    to, close = ranked[0], ranked[1 : 1 + CLOSE]
    lost = differs(to, line, written)
    told = [_swapped(written, to), note("swap_keeps", keeps=",".join(a for a in ASPECTS if a not in lost))]
    if lost:
        told.append(note("swap_differs", differs=",".join(lost)))
    if close:
        told.append(note("swap_close", names=", ".join(one.name for one in close)))
    return Instead(to, fitted(line, written, to), tuple(told))


def differs(one: ExerciseFacts, line: LineFacts, written: ExerciseFacts) -> tuple[Aspect, ...]:
    """Return in what it differs from the written exercise, as this line uses that."""
    wanted = set(line.directions or written.directions)
    is_other: dict[Aspect, bool] = {
        "pattern": one.patterns[:1] != written.patterns[:1],
        "direction": bool(wanted) and not wanted & set(one.directions),
        "sides": _is_one_sided(one) != _is_one_sided(written),
        "load": one.load_meaning != written.load_meaning,
    }
    return tuple(aspect for aspect in ASPECTS if is_other[aspect])


def fits_dose(one: ExerciseFacts, line: LineFacts) -> bool:
    """Whether the dose makes sense for it: "8 each side" wants a side, "2 each direction" wants those directions."""
    if line.dose.per == "side":
        return _is_one_sided(one)
    return line.dose.per != "direction" or set(line.directions) <= set(one.directions)


def fitted(line: LineFacts, written: ExerciseFacts, to: ExerciseFacts) -> LineFacts:
    """Return the line with a dose that suits: one side at a time, the repetitions are for each side."""
    directions = tuple(one for one in line.directions if one in to.directions)
    dose: Dose = line.dose
    if dose.kind == "reps" and not dose.per and _is_one_sided(to) and not _is_one_sided(written):
        dose = replace(dose, per="side")
    return replace(line, dose=dose, directions=directions)


def _keeps(one: ExerciseFacts, line: LineFacts, written: ExerciseFacts) -> bool:
    """Whether it may stand in at all."""
    return (
        bool(written.patterns)
        and written.patterns[0] in one.patterns
        and one.is_regions_reviewed
        and one.segment == written.segment
        and one.measure == written.measure
        and fits_dose(one, line)
        and not (one.spotting in _WANTS_SPOTTER and written.spotting not in _WANTS_SPOTTER)
        and not (one.family and one.family == written.family and one.family_rank > written.family_rank)
    )


def _rank(one: ExerciseFacts, line: LineFacts, written: ExerciseFacts) -> tuple[object, ...]:
    lost = differs(one, line, written)
    is_kin = bool(one.family) and one.family == written.family
    return (
        *(aspect in lost for aspect in ASPECTS),
        (one.load_meaning == "none") != (written.load_meaning == "none"),
        not is_kin,
        written.family_rank - one.family_rank if is_kin else 0,
        len(one.patterns),
        one.name.casefold(),
        one.id,
    )


def _serves(reason: str, region: str, reasons: Sequence[Note]) -> bool:
    """Whether a listed reason answers what stands against the exercise; "harder" never does."""
    codes = {step.code for step in reasons}
    match reason:
        case "equipment":
            return "no_equipment" in codes
        case "spares":
            return any(
                step.code in _REGION_CODES and dict(step.params).get("region", "") in ("", region) for step in reasons
            )
        case "easier" | "build":
            return bool(codes & (_REGION_CODES | _EASIER_CODES))
        case _:
            return False


def _is_one_sided(one: ExerciseFacts) -> bool:
    return one.laterality != "bilateral"


def _swapped(written: ExerciseFacts, to: ExerciseFacts) -> Note:
    return note("swapped", written=written.name, to=to.name)
