"""Which days a standing date falls on, and what a squad's days hold.

Days are the club's and times its wall clock: a training at 18:00 stays at 18:00 when the clocks change.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date, time, timedelta
from typing import Final

WEEK: Final = 7
MATCH, TRAINING, SLOT, HOLIDAY, TEST, OTHER = "match", "training", "slot", "holiday", "test", "other"
SCHOOL, SPORT = "school", "sport"
# What a holiday takes off: standing dates only. What is set for one day stays, whoever set it knew the holiday.
FALLS_AWAY: Final = frozenset({TRAINING, SLOT})


@dataclass(frozen=True, slots=True)
class Series:
    """Every so many weeks on some weekdays (Monday is 0), from a day to a day or without end, but not on `skipped`."""

    weekdays: frozenset[int]
    from_on: date
    to_on: date | None = None
    every_weeks: int = 1
    skipped: frozenset[date] = frozenset()

    def falls_on(self, day: date) -> bool:
        inside = self.from_on <= day and (self.to_on is None or day <= self.to_on)
        return inside and day.weekday() in self.weekdays and self._weeks_to(day) % self.every_weeks == 0

    def _weeks_to(self, day: date) -> int:
        """Whole weeks from the Monday of the first week."""
        return (day - monday_of(self.from_on)).days // WEEK


def monday_of(day: date) -> date:
    return day - timedelta(days=day.weekday())


def days_between(first: date, last: date) -> Iterator[date]:
    """Yield each day, both ends included."""
    for number in range((last - first).days + 1):
        yield first + timedelta(days=number)


def days_of(series: Series, first: date, last: date) -> list[date]:
    """Return its days between two days, both included; a series without end costs no more than those days."""
    start, end = max(first, series.from_on), last if series.to_on is None else min(last, series.to_on)
    return [day for day in days_between(start, end) if series.falls_on(day) and day not in series.skipped]


def has_days(series: Series) -> bool:
    """Whether it falls on any day at all, skipped days not counted."""
    if series.to_on is None:
        return bool(series.weekdays)
    round_ends_on = series.from_on.toordinal() + (series.every_weeks + 1) * WEEK
    return bool(days_of(series, series.from_on, date.fromordinal(min(series.to_on.toordinal(), round_ends_on))))


def last_day_of(series: Series, count: int) -> date:
    """Return the day on which the series falls for the `count`-th time; ValueError where it never does."""
    if count < 1 or not series.weekdays:
        raise ValueError("a series falls on some weekday, once or more")
    rounds = (count - 1) // len(series.weekdays)
    day = series.from_on + timedelta(weeks=rounds * series.every_weeks)
    met = count - 1 - rounds * len(series.weekdays)
    while True:
        if replace(series, to_on=None).falls_on(day):
            if met == 0:
                return day
            met -= 1
        day += timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Occasion:
    """Something on a day, or from a day to a day. `pk`: of its row among those of its kind; `on_date` tells which day
    of a series.

    `is_off`: a holiday takes it off. `minutes` None: not said. `venue_id`: of a gym slot.
    """

    kind: str
    pk: int
    on_date: date
    to_on: date
    starts_at: time | None = None
    minutes: int | None = None
    name: str = ""
    place: str = ""
    squad_id: int | None = None
    athlete_id: int | None = None
    venue_id: int | None = None
    is_series: bool = False
    is_home: bool = False
    is_cancelled: bool = False
    is_off: bool = False

    @property
    def takes_place(self) -> bool:
        return not (self.is_cancelled or self.is_off)

    def covers(self, day: date) -> bool:
        return self.on_date <= day <= self.to_on

    @property
    def order(self) -> tuple[object, ...]:
        """In a day: what has no time first, then by the clock."""
        return (self.on_date, self.starts_at is not None, self.starts_at or time(), self.kind, self.pk)


def without_holidays(occasions: Iterable[Occasion]) -> list[Occasion]:
    """Return them in order, standing trainings and gym slots marked as off where their squad has a holiday."""
    rows = sorted(occasions, key=lambda one: one.order)
    free = {
        (one.squad_id, day)
        for one in rows
        if one.kind == HOLIDAY and not one.is_cancelled
        for day in days_between(one.on_date, one.to_on)
    }
    return [replace(one, is_off=True) if _falls_away(one, free) else one for one in rows]


def _falls_away(one: Occasion, free: Collection[tuple[int | None, date]]) -> bool:
    return one.is_series and one.kind in FALLS_AWAY and (one.squad_id, one.on_date) in free
