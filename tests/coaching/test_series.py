"""Standing dates: which days they fall on, when they end, what a holiday takes off."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, time, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachhub.coaching.series import Occasion, Series, days_between, days_of, has_days, last_day_of, without_holidays

MONDAY = date(2026, 11, 30)
weekdays = st.frozensets(st.integers(0, 6), min_size=1)
some_days = st.dates(date(2020, 1, 1), date(2030, 1, 1))


def series(*days: int, every_weeks: int = 1, to_on: date | None = None) -> Series:
    return Series(frozenset(days), MONDAY, to_on, every_weeks)


def test_series_falls_on_its_weekdays_between_two_days() -> None:
    found = days_of(series(0, 2), MONDAY, MONDAY + timedelta(days=9))

    assert found == [date(2026, 11, 30), date(2026, 12, 2), date(2026, 12, 7), date(2026, 12, 9)]


def test_series_does_not_fall_before_its_first_or_after_its_last_day() -> None:
    ends = series(0, to_on=date(2026, 12, 7))

    assert days_of(ends, date(2026, 1, 1), date(2027, 1, 1)) == [date(2026, 11, 30), date(2026, 12, 7)]


def test_series_of_every_second_week_counts_weeks_from_monday() -> None:
    """From a Wednesday on: the Monday five days later is already in the other week."""
    fortnightly = replace(series(0, 2, every_weeks=2), from_on=date(2026, 12, 2))

    assert days_of(fortnightly, date(2026, 12, 1), date(2026, 12, 18)) == [
        date(2026, 12, 2),
        date(2026, 12, 14),
        date(2026, 12, 16),
    ]


def test_skipped_day_is_left_out() -> None:
    skips = replace(series(0), skipped=frozenset([date(2026, 12, 7)]))

    assert days_of(skips, MONDAY, date(2026, 12, 14)) == [MONDAY, date(2026, 12, 14)]


@given(weekdays, some_days, st.integers(1, 8), st.integers(1, 60))
def test_last_day_is_the_one_that_many_days_are_counted_to(
    days: frozenset[int], first: date, every: int, count: int
) -> None:
    one = Series(days, first, None, every)

    last = last_day_of(one, count)

    found = days_of(one, first, last)
    assert (len(found), found[-1]) == (count, last)


@pytest.mark.parametrize(("days", "count"), [((), 1), ((0,), 0)])
def test_series_that_never_falls_has_no_last_day(days: tuple[int, ...], count: int) -> None:
    with pytest.raises(ValueError, match="once or more"):
        last_day_of(series(*days), count)


@given(weekdays, some_days, st.integers(1, 8), st.integers(0, 100))
def test_series_has_days_exactly_where_one_is_found(days: frozenset[int], first: date, every: int, length: int) -> None:
    one = Series(days, first, first + timedelta(days=length), every)

    assert has_days(one) == bool(days_of(one, first, first + timedelta(days=length)))


def occasion(kind: str, day: date, **more: object) -> Occasion:
    return replace(Occasion(kind, 1, day, day, squad_id=1, is_series=True), **more)  # type: ignore[arg-type]


def test_holiday_takes_off_standing_trainings_and_slots_of_its_squad() -> None:
    holiday = occasion("holiday", MONDAY, to_on=MONDAY + timedelta(days=2), is_series=False)
    rows = [
        holiday,
        occasion("training", MONDAY),
        occasion("slot", MONDAY + timedelta(days=2)),
        occasion("training", MONDAY + timedelta(days=3)),
        occasion("training", MONDAY, squad_id=2),
        occasion("training", MONDAY, is_series=False),
        occasion("match", MONDAY, is_series=False),
        occasion("sport", MONDAY, squad_id=None, athlete_id=4),
    ]

    off = [(one.kind, one.on_date, one.squad_id) for one in without_holidays(rows) if one.is_off]

    assert off == [("training", MONDAY, 1), ("slot", MONDAY + timedelta(days=2), 1)]


def test_holiday_that_is_called_off_takes_nothing_off() -> None:
    holiday = occasion("holiday", MONDAY, is_cancelled=True)

    assert [one.is_off for one in without_holidays([holiday, occasion("training", MONDAY)])] == [False, False]


def test_day_goes_by_the_clock_what_has_no_time_first() -> None:
    late, early, whole = (occasion("training", MONDAY, starts_at=at) for at in (time(19), time(7), None))

    assert [one.starts_at for one in without_holidays([late, early, whole])] == [None, time(7), time(19)]


def test_days_between_holds_both_ends() -> None:
    assert list(days_between(MONDAY, MONDAY + timedelta(days=1))) == [MONDAY, MONDAY + timedelta(days=1)]
    assert list(days_between(MONDAY, MONDAY - timedelta(days=1))) == []
