"""Facts as a club in mid-season has them: a twelve-line evening, and a squad with fifty days of sets behind it."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

from coachhub.coaching.facts import (
    AthleteFacts,
    BestFacts,
    DayFacts,
    DoneSet,
    ExerciseFacts,
    GroupFacts,
    LineFacts,
    LoadMeaning,
    Mass,
    PainFacts,
    RegionLoad,
    RestrictionFacts,
    SessionFacts,
    VenueFacts,
)
from coachhub.coaching.loading import Bar, Plate, Stock, Weight
from coachhub.coaching.notation import parse

DAY = DayFacts(date(2026, 3, 10), week=5, days_to_match=4)
DAYS_BEHIND = 50
LOADS = ("60", "62.5", "65", "67.5", "70")

# Name, what its load means, the region it loads most, what it needs (one of each group).
Row = tuple[str, LoadMeaning, str, tuple[tuple[str, ...], ...]]
LIBRARY: tuple[Row, ...] = (
    ("Hip circle", "none", "hip", ()),
    ("Band walk", "none", "hip", (("mini_band",),)),
    ("Side plank", "none", "abdomen", ()),
    ("Drop landing", "none", "ankle", (("box",),)),
    ("Medicine ball throw", "single", "shoulder", (("dumbbell", "kettlebell"),)),
    ("Front squat", "bar_total", "knee", (("barbell",), ("rack",))),
    ("Dumbbell row", "per_hand", "upper_back", (("dumbbell",),)),
    ("Bench press", "bar_total", "chest", (("barbell",), ("bench",))),
    ("Split squat", "per_hand", "knee", (("dumbbell",),)),
    ("Romanian deadlift", "bar_total", "thigh_back", (("barbell",),)),
    ("Pull-down", "machine", "upper_back", (("cable",),)),
    ("Farmer's carry", "per_hand", "wrist_hand", (("dumbbell",),)),
    ("Goblet squat", "single", "hip", (("dumbbell",),)),
    ("Press-up", "none", "chest", ()),
)
# Block by block: the exercise's place in the library, and the dose.
BLOCKS: tuple[tuple[str, str, tuple[tuple[int, str], ...]], ...] = (
    ("", "warm_up", ((0, "10/side"), (1, "12/side"))),
    ("", "activation", ((2, "30 s hold/side"),)),
    ("", "athleticism", ((3, "5 contacts"), (4, "6 @ 6 kg"))),
    ("A", "strength", ((5, "5 @ 80%"), (6, "8-10 @ 2 RIR"))),
    ("B", "strength", ((7, "5 @ 2 RIR"), (8, "8/side @ 20 kg"))),
    ("C", "strength", ((9, "6-8 @ 75-80%"), (10, "10 @ last"), (11, "30 m @ 2 x 24 kg"))),
)
SWAPS = {5: (12,), 7: (13,), 8: (12,)}


def exercise(number: int) -> ExerciseFacts:
    name, meaning, region, needs = LIBRARY[number]
    return ExerciseFacts(
        id=number,
        name=name,
        patterns=("squat",),
        measure="reps",
        load_meaning=meaning,
        laterality="bilateral",
        regions=(RegionLoad(region, "both"), RegionLoad("low_back", "both")),
        is_regions_reviewed=True,
        needs=needs,
        cues=(("", "Tall and braced"), ("", "Slow down, fast up")),
    )


def block(key: int, label: str, segment: str, lines: tuple[tuple[int, str], ...]) -> GroupFacts:
    facts = tuple(
        LineFacts(
            f"p{number}",
            number,
            parse(dose),
            4,
            ramp_up_sets=3 if LIBRARY[number][1] == "bar_total" else 0,
            swap_ids=SWAPS.get(number, ()),
        )
        for number, dose in lines
    )
    return GroupFacts(f"g{key}", label, segment, None, False, 4, 4, 120, 150, "", None, "", facts)


def session() -> SessionFacts:
    groups = tuple(block(key, *written) for key, written in enumerate(BLOCKS))
    return SessionFacts(1, 1, "Lower and push", groups, {n: exercise(n) for n in range(len(LIBRARY))})


def venue() -> VenueFacts:
    plates = {"25": 4, "20": 4, "15": 2, "10": 4, "5": 4, "2.5": 4, "1.25": 3}
    stock = Stock(
        "kg",
        (Bar("barbell", Decimal(20), "kg"), Bar("hex_bar", Decimal(25), "kg")),
        tuple(Plate(Decimal(mass), "kg", pairs) for mass, pairs in plates.items()),
        tuple(Weight("dumbbell", Decimal(mass), "kg", 2) for mass in range(4, 34, 2)),
        tuple(Weight("kettlebell", Decimal(mass), "kg", 1) for mass in (8, 12, 16, 20, 24)),
    )
    kinds = frozenset(("barbell", "plates", "rack", "bench", "box", "cable", "dumbbell", "kettlebell", "mini_band"))
    return VenueFacts(1, True, "kg", kinds, stock)


def history(number: int) -> dict[int, tuple[DoneSet, ...]]:
    """Three or four sets a lift on each training day, half of the lifts on each, a little heavier as weeks go by."""
    found: dict[int, list[DoneSet]] = {}
    for day in range(DAYS_BEHIND):
        on = DAY.on_date - timedelta(days=2 * (DAYS_BEHIND - day))
        load = Mass(Decimal(LOADS[day * len(LOADS) // DAYS_BEHIND]), "kg")
        for lift in range(4 + day % 2, len(LIBRARY) - 1, 2):
            rows = found.setdefault(lift, [])
            rows += [DoneSet(1000 * day + 10 * lift + s, on, 1, 5 + s % 3, load, 4) for s in range(3 + number % 2)]
    return {lift: tuple(rows) for lift, rows in found.items()}


def athlete(number: int) -> AthleteFacts:
    """Every fifth under a restriction, every seventh in some pain, every fourth a minor."""
    knee = RestrictionFacts(number, "region", region="knee", side="left")
    sore = PainFacts(number, "chest", "both", 3, is_sore_only=False)
    is_minor = number % 4 == 0
    return AthleteFacts(
        number,
        16 if is_minor else 24,
        is_minor,
        "intermediate",
        "kg",
        is_rir_taught=number % 3 != 0,
        logged_days=DAYS_BEHIND,
        restrictions=(knee,) if number % 5 == 0 else (),
        pains=(sore,) if number % 7 == 0 else (),
        history=history(number),
        bests={lift: BestFacts(lift, Mass(Decimal(90), "kg"), 3, 2, date(2026, 1, 5)) for lift in (5, 7, 9)},
    )
