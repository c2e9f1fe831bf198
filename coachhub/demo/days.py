"""The days of the demo, counted back from today, so that it always looks fresh."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime, time, timedelta
from typing import Final

from django.utils import timezone

from coachhub.season.models import Weekday

MATCHES_BACK: Final = 12
MATCHES_AHEAD: Final = 6


def training_days(today: date, weekdays: frozenset[int], count: int) -> list[date]:
    """Return the last of those weekdays, oldest first; never yesterday, so that today's session comes rested."""
    days: list[date] = []
    day = today - timedelta(days=2)
    while len(days) < count:
        if day.weekday() in weekdays:
            days.append(day)
        day -= timedelta(days=1)
    return days[::-1]


def match_days(today: date) -> Iterator[date]:
    """Yield Saturdays; none today, because today the squads are in the gym."""
    first = today + timedelta(days=(Weekday.SATURDAY - today.weekday()) % 7)
    for week in range(-MATCHES_BACK, MATCHES_AHEAD):
        day = first + timedelta(weeks=week)
        if day != today:
            yield day


def born_on(today: date, years: int, days_since_birthday: int) -> date:
    """Return a date of birth that makes somebody that old today."""
    birthday = today - timedelta(days=days_since_birthday)
    # A birthday on 29 February is kept on the 28th: the year of birth may have no 29th.
    return birthday.replace(year=birthday.year - years, day=min(birthday.day, 28 if birthday.month == 2 else 31))


def at(day: date, hour: int, minute: int = 0) -> datetime:
    """Return that time of the day in the club's zone."""
    return timezone.make_aware(datetime.combine(day, time(hour, minute)))
