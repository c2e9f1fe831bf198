"""What goes into resolving a card: the session as written, the athlete, the venue, the day.

All values are frozen and ordered, so that the same facts always give the same card.
Sides, regions, patterns and equipment are the codes that the records use.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from typing import Literal

from coachhub.coaching.loading import LoadUnit, Stock
from coachhub.coaching.notation import Dose
from coachhub.science.units import Unit, to_kg

LoadMeaning = Literal["bar_total", "per_hand", "single", "added", "assistance", "machine", "none"]
SideSense = Literal["both", "working", "other"]
BodySide = Literal["both", "left", "right"]


@dataclass(frozen=True, slots=True)
class Mass:
    """A mass as it was seen: its value in its own unit. `kg` follows, worked out once: many sets are compared by it.

    Numbers of plates ("pl") are compared with numbers of the same stack alone, so there `kg` is just the number.
    """

    value: Decimal
    unit: LoadUnit
    kg: Decimal = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "kg", self.value if self.unit == "pl" else to_kg(self.value, self.unit))


@dataclass(frozen=True, slots=True)
class RegionLoad:
    region: str
    side_sense: SideSense


@dataclass(frozen=True, slots=True)
class ExerciseFacts:
    """A library entry; `needs` are any-of groups of equipment, all of which must be met.

    `family_rank`: its place in the family, easiest first; 0 for an exercise of no family.
    """

    id: int
    name: str
    patterns: tuple[str, ...]
    measure: str
    load_meaning: LoadMeaning
    laterality: str
    spotting: str = "none"
    regions: tuple[RegionLoad, ...] = ()
    is_regions_reviewed: bool = False
    is_impact: bool = False
    is_overhead: bool = False
    is_grip: bool = False
    is_deep_range: bool = False
    needs_supervision: bool = True
    needs: tuple[tuple[str, ...], ...] = ()
    cues: tuple[tuple[str, str], ...] = ()
    segment: str = ""
    directions: tuple[str, ...] = ()
    family: str = ""
    family_rank: int = 0


@dataclass(frozen=True, slots=True)
class ListedSwap:
    """A swap that the library lists for an exercise, with the reason that it serves."""

    to_id: int
    reason: str
    region: str = ""


@dataclass(frozen=True, slots=True)
class LineFacts:
    """A prescription: its dose without sets, the sets (one a round, or fewer), the swaps the coach allows in order.

    `against`: what the coach says today against the exercise as written. `by_level`: the line speaks of the family of
    its exercise, and each athlete does the variation of their own level.
    """

    key: str
    exercise_id: int
    dose: Dose
    sets: int
    ramp_up_sets: int = 0
    directions: tuple[str, ...] = ()
    cue: str = ""
    rest_after_s: int = 0
    swap_ids: tuple[int, ...] = ()
    pair_with: str = ""
    against: tuple[Note, ...] = ()
    by_level: bool = False


@dataclass(frozen=True, slots=True)
class GroupFacts:
    """A block: what people read as "Block A"; no label in the parts before the strength work."""

    key: str
    label: str
    segment: str
    segment_minutes: int | None
    is_optional: bool
    rounds_min: int
    rounds_max: int
    rest_min_s: int | None
    rest_max_s: int | None
    rest_note: str
    rest_after_s: int | None
    intent: str
    lines: tuple[LineFacts, ...]


@dataclass(frozen=True, slots=True)
class SessionFacts:
    """`exercises`: what the lines, their swaps and the levels name; `listed`: the library's swaps per exercise.

    `library`: where an alternative may be looked for when no listed swap will do. It is no input of a card that needs
    none, so it does not show in the text that names the inputs.
    """

    id: int
    revision: int
    name: str
    groups: tuple[GroupFacts, ...]
    exercises: Mapping[int, ExerciseFacts]
    listed: Mapping[int, tuple[ListedSwap, ...]] = field(default_factory=dict, repr=False)
    library: tuple[ExerciseFacts, ...] = field(default=(), repr=False)


@dataclass(frozen=True, slots=True)
class RestrictionFacts:
    """What must not be done; `exceptions` name exercises that are allowed all the same, up to a mass or without one."""

    id: int
    kind: str
    region: str = ""
    side: BodySide = "both"
    pattern: str = ""
    exercise_id: int | None = None
    cap: Mass | None = None
    exceptions: tuple[tuple[int, Mass | None], ...] = ()


@dataclass(frozen=True, slots=True)
class PainFacts:
    """A report that no coach has cleared yet."""

    id: int
    region: str
    side: BodySide
    score: int
    is_sore_only: bool


@dataclass(frozen=True, slots=True)
class DoneSet:
    """A set as it counts today; `is_clean` None: nobody has marked it."""

    entry_id: int
    on_date: date
    venue_id: int
    reps: int | None
    load: Mass | None
    rir_half: int | None = None
    is_clean: bool | None = None


@dataclass(frozen=True, slots=True)
class BestFacts:
    """A known best; `is_start` marks the coach's start load, which is no proof of strength."""

    id: int
    load: Mass
    reps: int
    rir_half: int
    on_date: date
    is_start: bool = False


@dataclass(frozen=True, slots=True)
class OwnItem:
    """A piece of somebody's own activation work: it joins every card, whatever the session is."""

    key: str
    exercise: ExerciseFacts
    dose: Dose
    sets: int
    goal: str = ""


@dataclass(frozen=True, slots=True)
class Gap:
    """A break in training of one movement pattern: its days, and how many times it was trained since."""

    days: int
    times_since: int


@dataclass(frozen=True, slots=True)
class AthleteFacts:
    """`history` holds done sets per exercise, oldest first; `bests` the newest known best per exercise.

    `is_guest`: nobody here knows what they lift, so no load that is written for others is theirs.
    `own_work`: most important first. `levels`: per family the exercise that is theirs. `return_stage`: a step on the
    way back that a coach or clinician has set, 0 for none. `gaps`: recent breaks per movement pattern.
    """

    id: int
    age: int
    is_minor: bool
    level: str
    unit: Unit
    is_rir_taught: bool
    logged_days: int
    is_guest: bool = False
    restrictions: tuple[RestrictionFacts, ...] = ()
    pains: tuple[PainFacts, ...] = ()
    history: Mapping[int, tuple[DoneSet, ...]] = field(default_factory=dict)
    bests: Mapping[int, BestFacts] = field(default_factory=dict)
    starts: Mapping[int, BestFacts] = field(default_factory=dict)
    own_work: tuple[OwnItem, ...] = ()
    levels: Mapping[str, int] = field(default_factory=dict)
    return_stage: int = 0
    gaps: Mapping[str, Gap] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class VenueFacts:
    """`kinds`: the equipment that stands there."""

    id: int
    is_supervised: bool
    unit: Unit
    kinds: frozenset[str]
    stock: Stock


@dataclass(frozen=True, slots=True)
class DayFacts:
    """`days_to_match` counts from the day to the next match, 0 on match day; None where none is known."""

    on_date: date
    week: int = 1
    days_to_match: int | None = None


@dataclass(frozen=True, slots=True)
class Note:
    """One step of a trace, as data: put into words only when shown."""

    code: str
    params: tuple[tuple[str, str], ...] = ()
    entry_ids: tuple[int, ...] = ()


def note(code: str, *entry_ids: int, **params: object) -> Note:
    """Return a trace step; parameters are kept as text, in the order given."""
    return Note(code, tuple([(name, str(value)) for name, value in params.items()]), entry_ids)
