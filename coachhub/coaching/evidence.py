"""What an athlete's sets prove: the last time, the heaviest for about those reps, whether a rise is due."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from decimal import Decimal
from itertools import takewhile
from operator import attrgetter
from typing import Final

from coachhub.coaching.facts import AthleteFacts, BestFacts, DoneSet, ExerciseFacts, VenueFacts
from coachhub.coaching.limits import ABOUT_REPS, NOVICE_DAYS, RISE_DAYS
from coachhub.coaching.notation import Dose
from coachhub.coaching.rungs import Ladder, is_numbered
from coachhub.science.rep_max import MOST_REPS, percent_for_reps

NO_ENTRY: Final = 0
ANYWHERE: Final = 0
_NOTHING: Final = Decimal(0)
_ON_DATE: Final = attrgetter("on_date")


def sets_here(exercise: ExerciseFacts, athlete: AthleteFacts, venue: VenueFacts) -> Sequence[DoneSet]:
    """Return the loaded sets that speak for this venue: a machine's number never carries over to another one.

    Zero kilograms are no load, except of help: there they say that none was needed.
    """
    done: Sequence[DoneSet] = athlete.history.get(exercise.id, ())
    if exercise.load_meaning in ("machine", "assistance"):
        done = [s for s in done if s.venue_id == venue.id]
    is_help = exercise.load_meaning == "assistance"
    return [s for s in done if s.load is not None and (s.load.kg > _NOTHING or is_help)]


def on_scale(sets: Sequence[DoneSet], ladder: Ladder | None) -> Sequence[DoneSet]:
    """Return the sets that are told as this machine tells its loads: numbers of plates, or masses."""
    if not ladder:
        return sets
    wants_number = is_numbered(ladder)
    return [s for s in sets if s.load is not None and (s.load.unit == "pl") == wants_number]


def last_set(sets: Sequence[DoneSet]) -> DoneSet | None:
    """Return the heaviest set of the last day; `sets` are oldest first."""
    if not sets:
        return None
    # Oldest first, so the last day stands at the end.
    last_day = list(takewhile(lambda s: s.on_date == sets[-1].on_date, reversed(sets)))
    return max(reversed(last_day), key=_kg)


def proofs(sets: Sequence[DoneSet], best: BestFacts | None, dose: Dose) -> Sequence[DoneSet]:
    """Return every completed load for about the reps asked for (at most one fewer than the low end).

    A known best counts as a set that nobody has marked, and that is no entry.
    """
    least = int(dose.low) - ABOUT_REPS if dose.kind == "reps" else 0
    fewest = max(least, 1)  # no repetition proves nothing
    found = [s for s in sets if s.reps is None or s.reps >= fewest]
    if best is not None and best.reps >= least:
        found.append(DoneSet(NO_ENTRY, best.on_date, ANYWHERE, best.reps, best.load))
    return found


def heaviest(found: Sequence[DoneSet]) -> DoneSet | None:
    """Return the heaviest proof; of equal ones a set marked clean, then the latest."""
    if not found:
        return None
    masses = [s.load.kg if s.load else _NOTHING for s in found]
    most = max(masses)
    equals = [s for s, kg in zip(found, masses, strict=True) if kg == most]
    return max([s for s in equals if s.is_clean] or equals, key=_ON_DATE)


def has_risen_lately(found: Sequence[DoneSet], today: date) -> bool:
    """Whether the heaviest load is new within the last seven days."""
    since = today - timedelta(days=RISE_DAYS)
    before = heaviest([s for s in found if s.on_date <= since])
    lately = heaviest([s for s in found if s.on_date > since])
    return before is not None and lately is not None and _kg(lately) > _kg(before)


def is_new_to_weights(athlete: AthleteFacts) -> bool:
    return athlete.is_minor or athlete.level == "novice" or athlete.logged_days < NOVICE_DAYS


def one_rm_kg(best: BestFacts) -> Decimal | None:
    """Estimate the one-repetition maximum in kg from a known best; None outside the table (over 12 to failure)."""
    to_failure = best.reps + best.rir_half / 2
    if best.is_start or to_failure > min(12, MOST_REPS):
        return None
    percent = Decimal(str(percent_for_reps(best.reps, best.rir_half / 2)))
    return best.load.kg * 100 / percent


def percent_at(dose: Dose) -> Decimal | None:
    """Return the percent of maximum for the most reps asked for at the reserve asked for; None outside the table."""
    if dose.kind != "reps" or dose.rir_half is None:
        return None
    reps, rir = int(dose.high or dose.low), dose.rir_half / 2
    if reps + rir > 12:
        return None
    return Decimal(str(percent_for_reps(reps, rir)))


def _kg(done: DoneSet) -> Decimal:
    return done.load.kg if done.load else _NOTHING
