"""Small, plain facts to resolve from: a gym with a 20 kg bar, a squatting adult, a one-line session."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

from coachhub.coaching.facts import (
    AthleteFacts,
    BestFacts,
    DayFacts,
    DoneSet,
    ExerciseFacts,
    GroupFacts,
    LineFacts,
    Mass,
    RegionLoad,
    SessionFacts,
    VenueFacts,
)
from coachhub.coaching.loading import Bar, Plate, Stock, Weight
from coachhub.coaching.notation import parse
from coachhub.coaching.resolve import ResolvedLine, resolve

DAY = DayFacts(date(2026, 3, 10))

BAR = Bar("barbell", Decimal(20), "kg")
PLATES = tuple(
    Plate(Decimal(mass), "kg", pairs) for mass, pairs in (("20", 2), ("10", 2), ("5", 2), ("2.5", 1), ("1.25", 1))
)
DUMBBELLS = tuple(Weight("dumbbell", Decimal(mass), "kg", 2) for mass in range(4, 34, 2))
STOCK = Stock("kg", (BAR,), PLATES, DUMBBELLS)
GYM = VenueFacts(1, True, "kg", frozenset(("barbell", "plates", "rack", "dumbbell")), STOCK)
ROAD = VenueFacts(2, False, "kg", frozenset(("mini_band",)), Stock("kg"))

SQUAT = ExerciseFacts(
    id=1,
    name="Front squat",
    patterns=("squat",),
    measure="reps",
    load_meaning="bar_total",
    laterality="bilateral",
    regions=(RegionLoad("knee", "both"), RegionLoad("hip", "both"), RegionLoad("low_back", "both")),
    is_regions_reviewed=True,
    needs=(("barbell",), ("rack",)),
)
GOBLET = replace(SQUAT, id=2, name="Goblet squat", load_meaning="single", needs=(("dumbbell", "kettlebell"),))
HIP_HINGE = ExerciseFacts(
    id=3,
    name="Dumbbell Romanian deadlift",
    patterns=("hinge",),
    measure="reps",
    load_meaning="per_hand",
    laterality="bilateral",
    regions=(RegionLoad("thigh_back", "both"), RegionLoad("low_back", "both")),
    is_regions_reviewed=True,
    needs=(("dumbbell",),),
    needs_supervision=False,
)
BRIDGE = ExerciseFacts(
    id=4,
    name="Glute bridge",
    patterns=("hinge",),
    measure="reps",
    load_meaning="none",
    laterality="bilateral",
    regions=(RegionLoad("hip", "both"),),
    is_regions_reviewed=True,
    needs_supervision=False,
)
EXERCISES = {exercise.id: exercise for exercise in (SQUAT, GOBLET, HIP_HINGE, BRIDGE)}

ADULT = AthleteFacts(1, 24, False, "advanced", "kg", True, 40)
MINOR = AthleteFacts(2, 15, True, "intermediate", "kg", True, 40)


def kg(value: str | int) -> Mass:
    return Mass(Decimal(value), "kg")


def done(load: str | int, reps: int = 5, *, days: int = 14, entry: int = 1, clean: bool | None = None) -> DoneSet:
    """A set `days` before the day of the card."""
    return DoneSet(entry, date.fromordinal(DAY.on_date.toordinal() - days), GYM.id, reps, kg(load), is_clean=clean)


def best(load: str | int, reps: int = 1, rir_half: int = 0) -> BestFacts:
    return BestFacts(7, kg(load), reps, rir_half, date(2026, 1, 5))


def line(text: str, exercise: ExerciseFacts = SQUAT, *, swaps: tuple[int, ...] = (), **more: Any) -> LineFacts:
    return LineFacts(f"p{exercise.id}", exercise.id, parse(text), 3, swap_ids=swaps, **more)


def session(*lines: LineFacts, exercises: dict[int, ExerciseFacts] | None = None) -> SessionFacts:
    group = GroupFacts("g1", "A", "strength", None, False, 3, 3, 120, 150, "", None, "", lines)
    return SessionFacts(1, 1, "Squat and pull", (group,), exercises or EXERCISES)


def card(
    *lines: LineFacts,
    athlete: AthleteFacts = ADULT,
    venue: VenueFacts = GYM,
    exercises: dict[int, ExerciseFacts] | None = None,
) -> tuple[ResolvedLine, ...]:
    """The lines of the card that these lines become."""
    return resolve(session(*lines, exercises=exercises), athlete, venue, DAY).lines


def codes(resolved: ResolvedLine) -> list[str]:
    return [step.code for step in resolved.trace]
