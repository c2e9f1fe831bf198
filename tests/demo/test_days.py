from __future__ import annotations

from datetime import date, timedelta

import pytest

from coachhub.demo.days import born_on, match_days, training_days
from coachhub.people.models import Athlete

WEEK = [date(2024, 2, 26) + timedelta(days=n) for n in range(7)]


@pytest.mark.parametrize("weekdays", [{0, 2}, {1, 3}, {0, 3}])
@pytest.mark.parametrize("today", WEEK)
def test_training_days_are_two_a_week_and_end_before_yesterday(today: date, weekdays: set[int]) -> None:
    days = training_days(today, frozenset(weekdays), 24)

    assert {day.weekday() for day in days} == weekdays
    assert days == sorted(set(days))
    assert 2 <= (today - days[-1]).days <= 6
    assert {(later - earlier).days for earlier, later in zip(days, days[2:], strict=False)} == {7}


@pytest.mark.parametrize("today", WEEK)
def test_matches_are_on_saturdays_but_not_today(today: date) -> None:
    days = list(match_days(today))

    assert {day.isoweekday() for day in days} == {6}
    assert today not in days
    assert days[0] < today - timedelta(days=76) < today + timedelta(days=27) < days[-1]


@pytest.mark.parametrize("today", [date(2024, 2, 29), date(2024, 3, 1), date(2025, 2, 28), date(2025, 12, 31)])
@pytest.mark.parametrize("since_birthday", [0, 1, 2, 200, 360])
def test_birth_date_makes_somebody_that_old_today(today: date, since_birthday: int) -> None:
    athlete = Athlete(born_on=born_on(today, 17, since_birthday))

    assert athlete.age_on(today) == 17
