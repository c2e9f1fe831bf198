"""What the coach notes of everyone's strength: before the first session, and after a good day."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Final

from coachhub.cards.models import BestSource, KnownBest
from coachhub.cards.queries.session_facts import exercise_facts
from coachhub.coaching.facts import DoneSet, ExerciseFacts
from coachhub.coaching.rungs import at_or_below, ladder_for
from coachhub.demo.club import Member
from coachhub.demo.data import Lifts
from coachhub.demo.stage import Stage
from coachhub.demo.truth import Ability, load_for

TESTED: Final = "tested"
UNKNOWN: Final = "none"
BEST_REPS: Final = 5
BEST_RIR_HALF: Final = 4
# A best was lifted with two in reserve; a start load leaves more than half a session's work.
BEST_TO_FAILURE: Final = 7
START_TO_FAILURE: Final = 15
START_SHARE: Final = 0.9


def note_start(stage: Stage, lifts: Lifts, number: int, on_date: date) -> None:
    """Type in what is known of the squad: bests in the main lifts, start loads elsewhere, of some nothing."""
    facts = exercise_facts(stage.lifts)
    rows = [
        row
        for member in stage.members.values()
        if member.person.bests != UNKNOWN
        for exercise in facts.values()
        if (row := _start(stage, member, exercise, number, is_main=stage.lifts[exercise.id].key in lifts.main))
    ]
    for row in rows:
        row.on_date = on_date
    stage.log.add_bests(KnownBest.objects.bulk_create(rows))


def _start(stage: Stage, member: Member, exercise: ExerciseFacts, number: int, *, is_main: bool) -> KnownBest | None:
    """Return a load of the room, without its day; None where there is nothing light enough."""
    lift, person = stage.lifts[exercise.id], member.person
    ladder = ladder_for(exercise, stage.rooms[stage.story.venue].stock)
    if not ladder or exercise.load_meaning == "machine":
        return None
    ability = Ability(f"{stage.seed} {stage.story.key} {member.athlete.name}", person.strength, person.level)
    most, is_tested = ability.max_kg(lift.key, lift.kg, number), is_main and person.bests == TESTED
    kg = load_for(BEST_TO_FAILURE, most) if is_tested else load_for(START_TO_FAILURE, most) * START_SHARE
    rung = at_or_below(Decimal(round(kg, 2)), ladder)
    if rung is None:
        return None
    return KnownBest(
        athlete=member.athlete,
        exercise_id=exercise.id,
        load_value=rung.mass.value,
        load_unit=rung.mass.unit,
        reps=BEST_REPS,
        rir_half=BEST_RIR_HALF if is_tested else 0,
        source=BestSource.TRAINING if is_tested else BestSource.COACH,
        noted_by_id=stage.coach.user_id,
    )


def note_done(stage: Stage, lifts: Lifts, on_date: date) -> None:
    """Type in the heaviest set of that day in each main lift, for those whose bests are kept."""
    main = [pk for pk, lift in stage.lifts.items() if lift.key in lifts.main]
    rows = [
        _done_best(stage, member, exercise_id, done)
        for member in stage.members.values()
        if member.person.bests == TESTED
        for exercise_id in main
        if (done := _heaviest(stage.log.sets[member.athlete.pk].get(exercise_id, []), on_date))
    ]
    stage.log.add_bests(KnownBest.objects.bulk_create(rows))


def _heaviest(sets: list[DoneSet], on_date: date) -> DoneSet | None:
    told = [one for one in sets if one.on_date == on_date and one.load and one.rir_half is not None]
    return max(told, key=lambda one: one.load.kg if one.load else 0, default=None)


def _done_best(stage: Stage, member: Member, exercise_id: int, done: DoneSet) -> KnownBest:
    return KnownBest(
        athlete=member.athlete,
        exercise_id=exercise_id,
        load_value=done.load.value if done.load else 0,
        load_unit=done.load.unit if done.load else "",
        reps=done.reps or BEST_REPS,
        rir_half=done.rir_half or 0,
        on_date=done.on_date,
        source=BestSource.TRAINING,
        noted_by_id=stage.coach.user_id,
    )
