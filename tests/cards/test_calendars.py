"""An athlete's own days: what all their squads have, and what they have besides."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from coachhub.base.clock import now, today
from coachhub.cards.queries import review_of_squad
from coachhub.cards.queries.calendars import calendars_of
from coachhub.people.models import Athlete, Membership
from coachhub.season.models import Happening, MatchDay, SkippedDay
from tests.cast import Cast, Role

pytestmark = pytest.mark.django_db

FIRST = today() - timedelta(days=today().weekday())
LAST = FIRST + timedelta(days=13)


@pytest.fixture(autouse=True)
def long_in_their_squads(cast: Cast) -> None:
    Membership.objects.update(started_on=FIRST - timedelta(days=100))


def day(number: int) -> date:
    return FIRST + timedelta(days=number)


def days_of(athlete: Athlete) -> list[tuple[date, str]]:
    found = calendars_of([athlete], FIRST, LAST)[athlete.pk]
    return sorted((one.on_date, one.kind) for one in found)


def test_training_of_the_squad_is_on_each_of_its_days_but_those_called_off(cast: Cast) -> None:
    weekly = Happening.objects.create(squad=cast.squad, kind="training", from_on=FIRST, weekdays=0b10)
    SkippedDay.objects.create(happening=weekly, on_date=day(8))

    assert days_of(cast.athlete) == [(day(1), "training")]
    assert days_of(cast.child) == []


def test_own_sport_and_school_are_the_athletes_alone(cast: Cast) -> None:
    Happening.objects.create(athlete=cast.athlete, kind="sport", from_on=day(2), to_on=day(2))
    Happening.objects.create(athlete=cast.athlete, kind="school", from_on=FIRST, weekdays=0b1)
    Happening.objects.create(athlete=cast.athlete, kind="sport", from_on=day(3), to_on=day(3), cancelled_at=now())

    assert days_of(cast.athlete) == [(day(0), "school"), (day(2), "other"), (day(7), "school")]
    assert days_of(cast.team_mate) == []


def test_what_lasts_longer_than_the_fortnight_is_cut_to_it(cast: Cast) -> None:
    Happening.objects.create(athlete=cast.athlete, kind="sport", from_on=day(-3), to_on=day(1))

    assert days_of(cast.athlete) == [(day(0), "other"), (day(1), "other")]


def test_holidays_are_free(cast: Cast) -> None:
    Happening.objects.create(squad=cast.squad, kind="training", from_on=FIRST, weekdays=0b10)
    Happening.objects.create(squad=cast.squad, kind="holiday", from_on=day(0), to_on=day(6))

    assert days_of(cast.athlete) == [(day(8), "training")]


def test_match_before_joining_the_squad_is_not_theirs(cast: Cast) -> None:
    MatchDay.objects.create(squad=cast.squad, on_date=day(1), opponent="Fen Gate")
    MatchDay.objects.create(squad=cast.squad, on_date=day(5), opponent="Fen Gate")
    Membership.objects.update(started_on=day(3))

    assert days_of(cast.athlete) == [(day(5), "match")]


def test_minor_without_a_day_off_is_remarked_on(cast: Cast) -> None:
    Happening.objects.create(squad=cast.other_squad, kind="training", from_on=FIRST, to_on=day(6), weekdays=0b0111111)
    own = Happening.objects.create(athlete=cast.child, kind="school", from_on=day(6), to_on=day(6))
    coach = cast.actor_of(Role.OTHER_COACH)

    ((_child, found),) = review_of_squad(coach, cast.other_squad, FIRST, LAST).athletes
    assert [(one.code, one.about) for one in found] == [("youth_no_day_off", FIRST.isoformat())]

    own.delete()
    ((_child, found),) = review_of_squad(coach, cast.other_squad, FIRST, LAST).athletes
    assert found == ()
