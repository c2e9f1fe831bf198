"""iCalendar files as other programs write them, sound and hostile, as a table of dates."""

from __future__ import annotations

import io
import re
import zoneinfo
from collections.abc import Iterator

import pytest
from django.utils import timezone

from coachhub.base.tables import MOST_BYTES, TableError
from coachhub.season.files.ics import read_dates
from tests.season.calendars import calendar, cells, event

MONDAYS = {"uid": "a@x", "from_on": "2026-11-30", "starts_at": "18:00", "weekdays": "mo"}


@pytest.fixture(autouse=True)
def _in_london() -> Iterator[None]:
    with timezone.override(zoneinfo.ZoneInfo("Europe/London")):
        yield


def test_event_is_read_with_its_words_and_length() -> None:
    table = calendar(
        event(
            "SUMMARY:Fen Gate\\, away",
            "LOCATION:Long \r\n hall",
            "DTEND:20261130T193000",
            "CATEGORIES:Match,Home",
            "STATUS:CANCELLED",
        )
    )

    assert cells(table) == {
        "uid": "a@x",
        "kind": "match",
        "name": "Fen Gate, away",
        "place": "Long hall",
        "from_on": "2026-11-30",
        "starts_at": "18:00",
        "minutes": "90",
        "state": "cancelled",
    }


@pytest.mark.parametrize(
    ("start", "from_on", "at"),
    [
        ("20260701T170000Z", "2026-07-01", "18:00"),
        ("DTSTART;TZID=America/New_York:20261130T200000", "2026-12-01", "01:00"),
        ("DTSTART;TZID=W. Europe Standard Time:20261130T180000", "2026-11-30", "17:00"),
        ("DTSTART;TZID=Somewhere/Invented:20261130T180000", "2026-11-30", "18:00"),
    ],
)
def test_time_is_told_by_the_clubs_clock(start: str, from_on: str, at: str) -> None:
    told = cells(calendar(event(start=start)))

    assert (told["from_on"], told["starts_at"]) == (from_on, at)


def test_whole_days_last_until_the_day_before_their_end() -> None:
    table = calendar(event("DTEND;VALUE=DATE:20270102", start="DTSTART;VALUE=DATE:20261224"))

    assert cells(table) == {"uid": "a@x", "from_on": "2026-12-24", "to_on": "2027-01-01"}


@pytest.mark.parametrize(
    ("rule", "told"),
    [
        ("FREQ=WEEKLY", {}),
        ("FREQ=WEEKLY;BYDAY=MO,TH", {"weekdays": "mo th"}),
        ("FREQ=WEEKLY;INTERVAL=2", {"every_weeks": "2"}),
        ("FREQ=DAILY;COUNT=3", {"weekdays": "mo tu we th fr sa su", "to_on": "2026-12-02"}),
        ("FREQ=WEEKLY;COUNT=3", {"to_on": "2026-12-14"}),
        ("FREQ=WEEKLY;UNTIL=20261214T180000Z", {"to_on": "2026-12-14"}),
        ("FREQ=WEEKLY;UNTIL=20261214T170000Z", {"to_on": "2026-12-13"}),
    ],
)
def test_weekly_rule_is_a_series(rule: str, told: dict[str, str]) -> None:
    """RFC 5545, 3.3.10: COUNT counts the first; UNTIL is the last, if it falls on one."""
    assert cells(calendar(event(f"RRULE:{rule}"))) == MONDAYS | told


def test_weekday_of_another_zone_moves_with_the_hour() -> None:
    """Monday evening in New York is Tuesday night in London."""
    start = "DTSTART;TZID=America/New_York:20261130T200000"

    table = calendar(event("RRULE:FREQ=WEEKLY;BYDAY=MO", start=start))

    assert (cells(table)["weekdays"], len(table.remarks)) == ("tu", 2)


def test_days_left_out_and_days_that_moved_are_no_longer_in_the_series() -> None:
    series = event("RRULE:FREQ=WEEKLY;COUNT=5", "EXDATE:20261207T180000,20261221T180000")
    moved = event("RECURRENCE-ID:20261214T180000", start="20261215T190000")

    table = calendar(series, moved)

    assert cells(table)["not_on"] == "2026-12-07 2026-12-14 2026-12-21"
    assert cells(table, 1) == {"uid": "a@x/20261214", "from_on": "2026-12-15", "starts_at": "19:00"}


@pytest.mark.parametrize(
    "rule",
    [
        "FREQ=SECONDLY",
        "FREQ=MONTHLY;BYDAY=1MO",
        "FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30",
        "FREQ=DAILY;BYHOUR=1,2,3",
        "FREQ=WEEKLY;COUNT=999999999",
        "FREQ=WEEKLY;COUNT=0",
        "FREQ=WEEKLY;INTERVAL=9",
        "FREQ=WEEKLY;INTERVAL=2;BYDAY=SU,MO;WKST=SU",
    ],
)
def test_any_other_rule_is_said_and_not_guessed(rule: str) -> None:
    weekdays = cells(calendar(event(f"RRULE:{rule}")))["weekdays"]

    assert re.match(r"FREQ=", weekdays)


def test_event_with_broken_lines_is_an_error_and_the_others_are_read() -> None:
    table = calendar(event(start="DTSTART:banana"), event("DURATION:x", "SUMMARY:Odd"), event(uid="c@x"))

    assert cells(table) == {"from_on": "?"}
    assert cells(table, 1) == {"name": "Odd", "from_on": "?"}
    assert cells(table, 2) == {"uid": "c@x", "from_on": "2026-11-30", "starts_at": "18:00"}


def test_alarms_and_zones_of_the_file_are_never_looked_at() -> None:
    """A rule in them would have to be played through from the year 1 on, second by second."""
    zone = (
        "BEGIN:VTIMEZONE\r\nTZID:Europe/London\r\nBEGIN:STANDARD\r\nDTSTART:00010101T000000\r\n"
        "RRULE:FREQ=SECONDLY\r\nTZOFFSETFROM:+0000\r\nTZOFFSETTO:+0500\r\nEND:STANDARD\r\nEND:VTIMEZONE"
    )
    alarm = "BEGIN:VALARM\r\nTRIGGER:-PT10M\r\nSUMMARY:Wake up\r\nEND:VALARM"

    told = cells(calendar(zone, event(alarm, "SUMMARY:Passing", start="DTSTART;TZID=Europe/London:20261130T180000")))

    assert told == {"uid": "a@x", "name": "Passing", "from_on": "2026-11-30", "starts_at": "18:00"}


def test_file_without_uid_is_read_and_a_long_uid_kept_short() -> None:
    table = calendar(event(uid=""), event(uid="x" * 5000))

    assert ("uid" in cells(table), len(cells(table, 1)["uid"])) == (False, 64)


def test_old_encoding_is_read_and_said() -> None:
    table = calendar(event("SUMMARY:Émile’s"), encoding="cp1252")

    assert (cells(table)["name"], "Windows-1252" in table.remarks[0]) == ("Émile’s", True)
    assert cells(calendar(event("SUMMARY:Émile"), encoding="utf-16"))["name"] == "Émile"


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"BEGIN:VCALENDAR\r\n" + b"x" * MOST_BYTES, "larger than 10 MB"),
        (b"BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n", "no events"),
        (b"BEGIN:VCALENDAR\r\n\x00\x01\r\n", "no calendar file of text"),
        (b"BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nSUMMARY:" + b"x" * 20_001 + b"\r\n", "far too long"),
        (b"BEGIN:VCALENDAR\r\n" + b"BEGIN:VEVENT\r\nEND:VEVENT\r\n" * 5001, "more than 5,000 rows"),
    ],
)
def test_hostile_file_is_refused_whole(content: bytes, said: str) -> None:
    with pytest.raises(TableError, match=said):
        read_dates(io.BytesIO(content))
