"""Steps in a family are proposed from what was done; a coach answers; coming cards are then out of date."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.core.exceptions import PermissionDenied
from django.db import connection
from django.test.utils import CaptureQueriesContext

from coachhub.base.clock import now, today
from coachhub.cards.actions import renew_stale
from coachhub.cards.actions.levels import NewLevel, answer_steps, set_levels
from coachhub.cards.models import Card, CardLine, SetMark
from coachhub.cards.queries.levels import ProposedStep, places_of, proposed_steps
from coachhub.library.models import Exercise
from coachhub.people.models import Athlete, AthleteLevel
from coachhub.people.queries_levels import levels_on
from tests.cards.conftest import Evening
from tests.cast import Role
from tests.factories import AthleteFactory, AthleteLevelFactory, CardLineFactory, ExerciseFactory, SetEntryFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def family(evening: Evening) -> list[Exercise]:
    """Easiest first; the front squat, on which the session is written "by level", stands in the middle."""
    squat = evening.squat.exercise
    squat.family, squat.family_rank = "squat", 2
    squat.save()
    evening.squat.is_by_level = True
    evening.squat.save()
    made = {"family": "squat", "patterns": ["squat"], "load_meaning": "none"}
    box = ExerciseFactory.create(name="Box squat", family_rank=1, **made)
    return [box, squat, ExerciseFactory.create(name="Pause squat", family_rank=3, **made)]


def trained(athlete: Athlete, exercise: Exercise, days_ago: int, *reps: int, clean: bool = True, **line: Any) -> None:
    """Sets of "4-6", the last of them marked."""
    planned = CardLineFactory.create(
        exercise=exercise, revision__card__athlete=athlete, **{"low": Decimal(4), "high": Decimal(6)} | line
    )
    on_date = today() - timedelta(days=days_ago)
    rows = [SetEntryFactory.create(line=planned, on_date=on_date, round=n, reps=done) for n, done in enumerate(reps, 1)]
    coach = AthleteLevelFactory.create().set_by
    quality = "clean" if clean else "shaky"
    SetMark.objects.create(entry=rows[-1], quality=quality, marked_at=now(), marked_by=coach)


def steps_of(*athletes: Athlete) -> list[ProposedStep]:
    return proposed_steps(athletes, places_of(athletes, today()), today())


def proposed(*athletes: Athlete) -> list[tuple[str, str]]:
    return [(step.athlete.given_name, step.to.name) for step in steps_of(*athletes)]


def at(athlete: Athlete, exercise: Exercise, **values: Any) -> AthleteLevel:
    row: AthleteLevel = AthleteLevelFactory.create(athlete=athlete, exercise=exercise, **values)
    return row


def new(evening: Evening, exercise: Exercise | None) -> list[NewLevel]:
    return [NewLevel(evening.athlete, "squat", exercise, "clean for two weeks")]


def test_two_clean_sessions_at_the_top_propose_a_step_up(evening: Evening, family: list[Exercise]) -> None:
    at(evening.athlete, family[0])
    for days in (10, 3):
        trained(evening.athlete, family[0], days, 6, 6)
        trained(evening.cast.team_mate, family[0], days, 6, 6)
    assert proposed(evening.athlete, evening.cast.team_mate) == [("Ingrid", "Front squat")]


def test_two_sessions_below_the_range_propose_a_step_down(evening: Evening, family: list[Exercise]) -> None:
    at(evening.athlete, family[2])
    for days in (10, 3):
        trained(evening.athlete, family[2], days, 4, 3)
    assert proposed(evening.athlete) == [("Ingrid", "Front squat")]


def test_amount_of_another_kind_and_a_set_on_anothers_line_say_nothing(
    evening: Evening, family: list[Exercise]
) -> None:
    at(evening.athlete, family[0])
    for days in (10, 3):
        trained(evening.athlete, family[0], days, 6, dose_kind="hold")
    for days in (11, 4):
        line = CardLineFactory.create(revision__card__athlete=evening.athlete, low=4)
        SetEntryFactory.create(line=line, exercise=family[0], reps=2, on_date=today() - timedelta(days=days))
    assert proposed(evening.athlete) == []


def test_held_time_is_compared_with_the_time_asked_for(evening: Evening, family: list[Exercise]) -> None:
    at(evening.athlete, family[1])
    for days in (10, 3):
        line = CardLineFactory.create(
            exercise=family[1], revision__card__athlete=evening.athlete, dose_kind="hold", low=30
        )
        SetEntryFactory.create(line=line, reps=None, time_s=20, on_date=today() - timedelta(days=days))
    assert proposed(evening.athlete) == [("Ingrid", "Box squat")]


def test_answer_either_way_leaves_nothing_proposed(evening: Evening, family: list[Exercise]) -> None:
    for athlete in (evening.athlete, evening.cast.team_mate):
        at(athlete, family[0])
        for days in (10, 3):
            trained(athlete, family[0], days, 6, 6)
    first, second = steps_of(evening.athlete, evening.cast.team_mate)
    assert answer_steps(actor=evening.coach, steps=[first], is_accepted=True) == 1
    assert answer_steps(actor=evening.coach, steps=[second], is_accepted=False) == 0
    levels = levels_on([first.athlete.pk, second.athlete.pk], today())
    assert [levels[one.athlete.pk]["squat"].exercise for one in (first, second)] == [family[1], family[0]]
    assert [levels[one.athlete.pk]["squat"].reason for one in (first, second)] == [
        "Every set reached the top of its range, clean, in 2 sessions running.",
        "Stays: a step up was declined.",
    ]
    assert proposed(evening.athlete, evening.cast.team_mate) == []


def test_next_card_has_the_new_variation_and_says_so(evening: Evening, family: list[Exercise]) -> None:
    later = evening.assign(evening.athlete, in_days=2)
    n = set_levels(actor=evening.coach, new=new(evening, family[2]), from_on=today() + timedelta(days=1))
    assert n == 1
    assert Card.objects.get(is_behind=True).assignment == later
    renew_stale(actor=evening.coach, assignment=later)
    line = CardLine.objects.get(revision__card__assignment=later, revision__number=2, line_key=evening.squat.line_key)
    assert (line.exercise, line.trace[0]["code"]) == (family[2], "level")


def test_session_that_does_not_speak_of_the_family_is_not_behind(evening: Evening, family: list[Exercise]) -> None:
    evening.squat.is_by_level = False
    evening.squat.save()
    assert set_levels(actor=evening.coach, new=new(evening, family[2]), from_on=today()) == 0


def test_sent_twice_is_one_level(evening: Evening, family: list[Exercise]) -> None:
    for _ in range(2):
        set_levels(actor=evening.coach, new=new(evening, family[2]), from_on=today())
    assert AthleteLevel.objects.count() == 1


def test_level_is_withdrawn_by_a_row_without_a_variation(evening: Evening, family: list[Exercise]) -> None:
    set_levels(actor=evening.coach, new=new(evening, family[2]), from_on=today())
    set_levels(actor=evening.coach, new=new(evening, None), from_on=today())
    assert levels_on([evening.athlete.pk], today())[evening.athlete.pk] == {}
    assert AthleteLevel.objects.count() == 2


@pytest.mark.parametrize("role", [Role.OTHER_COACH, Role.ASSISTANT, Role.CLINICIAN, Role.ATHLETE])
def test_only_the_athletes_coaches_set_a_level(evening: Evening, family: list[Exercise], role: Role) -> None:
    with pytest.raises(PermissionDenied):
        set_levels(actor=evening.cast.actor_of(role), new=new(evening, family[2]), from_on=today())


def test_variation_of_another_family_is_refused(evening: Evening, family: list[Exercise]) -> None:
    with pytest.raises(ValueError, match="another family"):
        set_levels(actor=evening.coach, new=new(evening, evening.cast.exercise), from_on=today())


def test_proposals_cost_the_same_for_one_athlete_and_thirty(evening: Evening, family: list[Exercise]) -> None:
    costs, athletes = [], []
    for number in (1, 29):
        for athlete in AthleteFactory.create_batch(number, squad=evening.cast.squad):
            athletes.append(athlete)
            at(athlete, family[0])
            trained(athlete, family[0], 10, 6)
            trained(athlete, family[0], 3, 6)
        with CaptureQueriesContext(connection) as asked:
            steps = steps_of(*athletes)
        costs.append(len(asked))
        assert len(steps) == len(athletes)
    assert costs == [4, 4]
