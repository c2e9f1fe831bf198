"""What an athlete's sets prove: the last time, the heaviest for about those reps, whether a rise is due."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from coachhub.coaching.facts import AthleteFacts, BestFacts, DoneSet, ExerciseFacts, Mass, VenueFacts
from coachhub.coaching.limits import ABOUT_REPS, NOVICE_DAYS, RISE_DAYS
from coachhub.coaching.notation import Dose
from coachhub.science.rep_max import MOST_REPS, percent_for_reps


@dataclass(frozen=True, slots=True)
class Proof:
    """A load really completed, by an entry or by a known best."""

    mass: Mass
    on_date: date
    reps: int | None
    is_clean: bool | None
    entry_ids: tuple[int, ...] = ()


def sets_here(exercise: ExerciseFacts, athlete: AthleteFacts, venue: VenueFacts) -> tuple[DoneSet, ...]:
    """Return the loaded sets that speak for this venue: a machine's number never carries over to another one."""
    done = (s for s in athlete.history.get(exercise.id, ()) if s.load is not None)
    if exercise.load_meaning in ("machine", "assistance"):
        return tuple(s for s in done if s.venue_id == venue.id)
    return tuple(done)


def last_set(sets: tuple[DoneSet, ...]) -> DoneSet | None:
    """Return the heaviest set of the last day."""
    if not sets:
        return None
    last_on = max(s.on_date for s in sets)
    return max((s for s in sets if s.on_date == last_on), key=_kg)


def proofs(sets: tuple[DoneSet, ...], best: BestFacts | None, dose: Dose) -> tuple[Proof, ...]:
    """Return every completed load for about the reps asked for (at most one fewer than the low end)."""
    least = int(dose.low) - ABOUT_REPS if dose.kind == "reps" else 0
    found = [
        Proof(s.load, s.on_date, s.reps, s.is_clean, (s.entry_id,))
        for s in sets
        if s.load is not None and (s.reps is None or s.reps >= least)
    ]
    if best is not None and best.reps >= least:
        found.append(Proof(best.load, best.on_date, best.reps, None))
    return tuple(found)


def heaviest(found: tuple[Proof, ...]) -> Proof | None:
    """Return the heaviest proof; of equal ones a set marked clean, then the latest."""
    return max(found, key=lambda p: (p.mass.kg, p.is_clean is True, p.on_date), default=None)


def has_risen_lately(found: tuple[Proof, ...], today: date) -> bool:
    """Whether the heaviest load is new within the last seven days."""
    since = today - timedelta(days=RISE_DAYS)
    before = max((p.mass.kg for p in found if p.on_date <= since), default=None)
    lately = max((p.mass.kg for p in found if p.on_date > since), default=None)
    return before is not None and lately is not None and lately > before


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
    return done.load.kg if done.load else Decimal(0)
