"""What the coach notes of everyone's strength: before the first session, and after a good day."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Final

from coachhub.cards.models import BestSource, KnownBest, SetEntry
from coachhub.cards.queries.session_facts import exercise_facts
from coachhub.coaching.facts import Mass
from coachhub.coaching.rungs import at_or_below, ladder_for
from coachhub.demo.club import Member
from coachhub.demo.stage import Stage
from coachhub.library.models import Exercise
from coachhub.library.queries import venue_stock

TESTED: Final = "tested"
UNKNOWN: Final = "none"
BEST_REPS: Final = 5
BEST_RIR_HALF: Final = 4
# A known best is what was lifted well; a start load is on the safe side of it.
TESTED_SHARE: Final = 0.97
START_SHARE: Final = 0.78


def note_start(stage: Stage, on_date: date) -> None:
    """Type in what is known of the squad: bests in the main lifts, start loads elsewhere, of some nothing."""
    exercises = Exercise.objects.in_bulk(stage.lifts)
    facts, stock = exercise_facts(stage.lifts), venue_stock(stage.venue)
    ladders = {pk: ladder_for(facts[pk], stock) or () for pk in exercises}
    rows = []
    for member in stage.club.members.values():
        if member.person.bests == UNKNOWN:
            continue
        for pk, exercise in exercises.items():
            is_tested = member.person.bests == TESTED and exercise.origin_key in stage.story.main_lifts
            able = stage.trainee(member, 0).able_kg(pk) or 0
            rung = at_or_below(Decimal(round(able * (TESTED_SHARE if is_tested else START_SHARE), 2)), ladders[pk])
            if rung is not None:
                rows.append(_best(stage, member, pk, rung.mass, on_date, is_tested=is_tested))
    KnownBest.objects.bulk_create(rows)


def _best(stage: Stage, member: Member, exercise_id: int, mass: Mass, on_date: date, *, is_tested: bool) -> KnownBest:
    return KnownBest(
        athlete=member.athlete,
        exercise_id=exercise_id,
        load_value=mass.value,
        load_unit=mass.unit,
        reps=BEST_REPS,
        rir_half=BEST_RIR_HALF if is_tested else 0,
        on_date=on_date,
        source=BestSource.TRAINING if is_tested else BestSource.COACH,
        noted_by_id=stage.club.coach.user_id,
    )


def note_done(stage: Stage, on_date: date) -> None:
    """Type in the heaviest set of that day in each main lift, for those whose bests are kept."""
    tested = [m.athlete.pk for m in stage.club.members.values() if m.person.bests == TESTED]
    entries = SetEntry.objects.filter(
        on_date=on_date,
        athlete__in=tested,
        exercise__origin_key__in=stage.story.main_lifts,
        rir_half__isnull=False,
    )
    heaviest = {(entry.athlete_id, entry.exercise_id): entry for entry in entries.order_by("load_kg", "pk")}
    KnownBest.objects.bulk_create(
        KnownBest(
            athlete_id=athlete_id,
            exercise_id=exercise_id,
            load_value=entry.load_value,
            load_unit=entry.load_unit,
            reps=entry.reps or BEST_REPS,
            rir_half=entry.rir_half or 0,
            on_date=on_date,
            source=BestSource.TRAINING,
            noted_by_id=stage.club.coach.user_id,
        )
        for (athlete_id, exercise_id), entry in heaviest.items()
        if entry.load_value is not None
    )
