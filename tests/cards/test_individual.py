"""One written session, another card for each: alternatives from the library, levels, breaks, the way back."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from coachhub.base.clock import now, today
from coachhub.cards.models import Card, CardLine
from coachhub.cards.queries.resolving import recipe_of
from coachhub.cards.words import note_text
from coachhub.coaching.facts import Note
from coachhub.library.models import Exercise, Swap
from coachhub.people.models import Athlete, AthleteLevel, Club, ReturnStage, User
from tests.cards.conftest import Evening
from tests.factories import (
    AthleteFactory,
    CardLineFactory,
    ExerciseFactory,
    RestrictionFactory,
    SetEntryFactory,
    VenueFactory,
)

pytestmark = pytest.mark.django_db


def line_of(evening: Evening, key: str, athlete: Athlete | None = None) -> CardLine:
    who = athlete or evening.athlete
    assignment = evening.assign(who, in_days=1)
    return CardLine.objects.get(revision__card__athlete=who, revision__card__assignment=assignment, line_key=key)


def told(line: CardLine) -> list[str]:
    """The trace in words."""
    return [note_text(Note(step["code"], tuple(step["params"].items()))) for step in line.trace]


def trained(athlete: Athlete, exercise: Exercise, *days_ago: int, load: int | None = None) -> None:
    for days in days_ago:
        line = CardLineFactory.create(exercise=exercise, revision__card__athlete=athlete)
        weight = {"load_value": Decimal(load), "load_unit": "kg", "load_kg": Decimal(load)} if load else {}
        SetEntryFactory.create(line=line, on_date=today() - timedelta(days=days), reps=5, **weight)


@pytest.fixture
def leg_raise() -> Exercise:
    return ExerciseFactory.create(name="Hip squat", patterns=["squat"], regions=["hip"], load_meaning="none")


def test_library_stands_in_where_no_listed_swap_will_do(evening: Evening, leg_raise: Exercise) -> None:
    Swap.objects.all().delete()
    evening.squat.swaps.all().delete()
    evening.goblet.archived_at = now()
    evening.goblet.save()
    RestrictionFactory.create(athlete=evening.athlete, kind="region", region="knee")
    line = line_of(evening, evening.squat.line_key)
    assert (line.exercise, line.written_exercise, line.load_value) == (leg_raise, evening.squat.exercise, None)
    assert told(line)[:4] == [
        "Restricted for now: knee.",
        "Hip squat instead of Front squat.",
        "Chosen because it keeps: movement pattern, direction, one side or both.",
        "Not the same: kind of load.",
    ]


def test_swap_that_the_library_lists_for_the_reason_goes_first(evening: Evening, leg_raise: Exercise) -> None:
    evening.squat.swaps.all().delete()
    listed = ExerciseFactory.create(name="Belt squat", patterns=["squat"], regions=["hip"])
    Swap.objects.create(exercise=evening.squat.exercise, to=listed, reason="spares", region="knee")
    RestrictionFactory.create(athlete=evening.athlete, kind="region", region="knee")
    assert line_of(evening, evening.squat.line_key).exercise == listed


def test_alternative_starts_from_its_own_history(evening: Evening) -> None:
    evening.squat.swaps.all().delete()
    evening.goblet.archived_at = now()
    evening.goblet.save()
    other = ExerciseFactory.create(name="Hip belt squat", patterns=["squat"], regions=["hip"])
    trained(evening.athlete, other, 3, load=40)
    RestrictionFactory.create(athlete=evening.athlete, kind="region", region="knee")
    line = line_of(evening, evening.squat.line_key)
    assert (line.exercise, line.load_value, line.load_rule) == (other, Decimal(40), "last")


def test_session_on_the_road_says_what_is_lost(evening: Evening) -> None:
    evening.assignment.venue = VenueFactory.create(name="On the road", is_supervised=False)
    evening.assignment.save()
    card = recipe_of([evening.card()]).resolve(evening.athlete.pk)
    lost = [dict(step.params)["pattern"] for line in card.lines for step in line.trace if step.code == "pattern_lost"]
    assert lost == ["squat", "hinge"]


def test_break_eases_the_first_card_and_says_so(evening: Evening) -> None:
    trained(evening.athlete, evening.squat.exercise, 40, 20, load=60)
    line = line_of(evening, evening.squat.line_key)
    assert (line.sets, line.load_value) == (2, Decimal("52.5"))  # 60 % of 4 sets; 90 % of 60 kg, as can be loaded
    assert told(line)[0] == "Eased after 20 days without squat: 60 % of the sets, 90 % of the load."


def test_break_as_the_club_counts_it(evening: Evening) -> None:
    trained(evening.athlete, evening.squat.exercise, 40, 20, load=60)
    Club.objects.update(gap_days=21)
    assert line_of(evening, evening.squat.line_key).sets == 4


def test_break_long_ago_is_still_a_break(evening: Evening) -> None:
    trained(evening.athlete, evening.squat.exercise, 300, load=60)
    assert told(line_of(evening, evening.squat.line_key))[0].startswith("Eased after 300 days without squat")


def test_who_trained_the_pattern_with_another_exercise_has_no_break(evening: Evening) -> None:
    trained(evening.athlete, evening.squat.exercise, 20, load=60)
    trained(evening.athlete, evening.goblet, 10, 2, load=16)
    assert line_of(evening, evening.squat.line_key).sets == 4


def test_warm_up_of_the_pattern_ends_no_break(evening: Evening) -> None:
    trained(evening.athlete, evening.squat.exercise, 20, load=60)
    trained(evening.athlete, ExerciseFactory.create(segment="warm_up", patterns=["squat"]), 2)
    assert line_of(evening, evening.squat.line_key).sets == 2


def stage(athlete: Athlete, number: int, *, days_ago: int = 0) -> None:
    ReturnStage.objects.create(
        athlete=athlete,
        stage=number,
        from_on=today() - timedelta(days=days_ago),
        on_word_of="Dr Hale",
        set_by=User.objects.earliest("pk"),
        set_at=now(),
    )


def test_newest_stage_that_has_begun_eases_the_card(evening: Evening) -> None:
    stage(evening.athlete, 2, days_ago=3)
    stage(evening.athlete, 1, days_ago=9)
    stage(evening.athlete, 3, days_ago=-5)
    line = line_of(evening, evening.squat.line_key)
    assert (line.sets, told(line)[0]) == (3, "Coming back, stage 2: 75 % of the sets, 80 % of the load.")


def test_stage_nought_is_back_in_full(evening: Evening) -> None:
    stage(evening.athlete, 2, days_ago=3)
    stage(evening.athlete, 0)
    assert line_of(evening, evening.squat.line_key).sets == 4


def test_line_that_speaks_of_a_family_takes_each_ones_level(evening: Evening) -> None:
    squat = evening.squat.exercise
    squat.family, squat.family_rank = "squat", 1
    squat.save()
    harder = ExerciseFactory.create(name="Pause squat", patterns=["squat"], family="squat", family_rank=2)
    evening.squat.is_by_level = True
    evening.squat.save()
    AthleteLevel.objects.create(
        athlete=evening.athlete,
        family="squat",
        exercise=harder,
        from_on=today(),
        reason="clean for two weeks",
        set_by=User.objects.earliest("pk"),
        set_at=now(),
    )
    own, other = (line_of(evening, evening.squat.line_key, who) for who in (evening.athlete, evening.cast.team_mate))
    assert (own.exercise, own.written_exercise, own.load_value) == (harder, squat, None)
    assert told(own)[0] == "Their own level: Pause squat, where the session says Front squat."
    assert other.exercise == squat


def test_same_facts_have_the_same_digest_with_the_library_too(evening: Evening, leg_raise: Exercise) -> None:
    evening.squat.swaps.all().delete()
    RestrictionFactory.create(athlete=evening.athlete, kind="region", region="knee")
    first, again = (recipe_of([evening.card()]).digest(evening.athlete.pk) for _ in range(2))
    leg_raise.name = "Hip squat to a box"
    leg_raise.save()
    evening.goblet.archived_at = now()
    evening.goblet.save()
    assert first == again
    assert recipe_of([evening.card()]).digest(evening.athlete.pk) != first


def test_recipe_takes_the_same_queries_for_many(evening: Evening) -> None:
    evening.squat.swaps.all().delete()
    counts = []
    for number in (1, 30):
        athletes = AthleteFactory.create_batch(number, squad=evening.cast.squad)
        for athlete in athletes:
            RestrictionFactory.create(athlete=athlete, kind="region", region="knee")
        cards = list(Card.objects.filter(assignment=evening.assign(*athletes, in_days=number)))
        with CaptureQueriesContext(connection) as asked:
            recipe_of(cards)
        counts.append((len(cards), len(asked)))
    assert counts == [(1, counts[0][1]), (30, counts[0][1])]
