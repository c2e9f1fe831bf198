"""The calendar feed against RFC 5545, section by section, and as another program's parser reads it."""

from __future__ import annotations

import re
from datetime import UTC, date, datetime, time
from typing import Any

from icalendar import Calendar

from coachhub.base.clock import now
from coachhub.season.actions import Scope, call_off, change_dates, make_feed
from coachhub.season.feed import feed_file
from coachhub.season.models import FeedLink, Happening, MatchDay
from coachhub.season.queries import feed_of
from tests.cast import Cast, Role
from tests.season.dates import MONDAY, slot, training

LONG = "Fen Gate; “the ånd”, \\ under the long bridge by the mill, second five and friends, all of them"


def feed(cast: Cast, **about: Any) -> bytes:
    link = FeedLink(**(about or {"squad": cast.squad}), made_at=now())
    return feed_file(link, "Europe/London", MONDAY, "Tarn Valley Handball Club")


def events(text: bytes) -> list[Any]:
    return list(Calendar.from_ical(text).walk("VEVENT"))


def lines(text: bytes) -> list[str]:
    """Unfolded (3.1)."""
    return re.sub(r"\r\n[ \t]", "", text.decode()).split("\r\n")


def match(cast: Cast, **more: Any) -> MatchDay:
    values = {"on_date": date(2026, 12, 5), "starts_at": time(15), "opponent": LONG[:80], **more}
    return MatchDay.objects.create(squad=cast.squad, **values)


def test_lines_end_in_crlf_and_hold_75_octets_at_most(cast: Cast) -> None:
    """3.1: "Lines of text SHOULD NOT be longer than 75 octets, excluding the line break"; CRLF between lines."""
    match(cast)

    text = feed(cast)

    raw = text.split(b"\r\n")
    assert (raw[-1], max(len(line) for line in raw) <= 75) == (b"", True)
    assert [line for line in raw if b"\n" in line or b"\r" in line] == []
    for line in raw:
        line.decode()  # no letter is cut in two


def test_text_is_escaped(cast: Cast) -> None:
    """3.3.11: backslash, semicolon and comma take a backslash before them."""
    match(cast)

    summary = next(line for line in lines(feed(cast)) if line.startswith("SUMMARY:"))

    assert summary.startswith(r"SUMMARY:Match: Fen Gate\; “the ånd”\, \\ under the long bridge by the mill\, ")
    assert str(events(feed(cast))[0]["SUMMARY"]) == f"Match: {LONG[:80]}, at home"


def test_calendar_says_who_made_it_and_which_version_it_keeps_to(cast: Cast) -> None:
    """3.7.3 and 3.7.4: both are needed."""
    told = lines(feed(cast))

    assert told[:3] == ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//coachhub//calendar//EN"]
    assert told[-2:] == ["END:VCALENDAR", ""]


def test_every_event_has_a_uid_of_its_own_and_a_stamp_in_utc(cast: Cast) -> None:
    """3.8.4.7, 3.8.7.2: needed in each; 3.6.1: a start as well."""
    match(cast)
    slot(cast)
    training(cast.squad)

    rows = events(feed(cast))

    assert len({str(row["UID"]) for row in rows}) == len(rows) > 100
    assert {row["DTSTAMP"].dt.tzinfo for row in rows} == {row["LAST-MODIFIED"].dt.tzinfo for row in rows}
    assert [line for line in lines(feed(cast)) if re.match(r"DTSTAMP:(?!\d{8}T\d{6}Z$)", line)] == []
    assert [row for row in rows if "DTSTART" not in row] == []


def test_uid_stays_and_sequence_rises_when_a_date_changes(cast: Cast) -> None:
    """3.8.4.7: persistent; 3.8.7.4: counted up with each change."""
    row = match(cast)
    before = events(feed(cast))[0]

    row.change(starts_at=time(16))

    after = events(feed(cast))[0]
    assert (str(after["UID"]), int(before["SEQUENCE"]), int(after["SEQUENCE"])) == (str(before["UID"]), 0, 1)


def test_times_are_in_utc_on_both_sides_of_the_change_of_clocks(cast: Cast) -> None:
    """3.3.5, form 2. In Europe/London 18:00 is 17:00 UTC until 24 October 2026, and 18:00 UTC after it."""
    training(cast.squad, weekdays=1, from_on=date(2026, 10, 19), to_on=date(2026, 10, 26))

    starts = [(row["DTSTART"].dt, row["DTEND"].dt - row["DTSTART"].dt) for row in events(feed(cast))]

    assert [start.astimezone(UTC) for start, _ in starts] == [
        datetime(2026, 10, 19, 17, tzinfo=UTC),
        datetime(2026, 10, 26, 18, tzinfo=UTC),
    ]
    assert [length.seconds // 60 for _, length in starts] == [90, 90]


def test_whole_days_end_on_the_day_after(cast: Cast) -> None:
    """3.6.1: DTEND is not part of the event; with VALUE=DATE for both."""
    Happening.objects.create(squad=cast.squad, kind="holiday", from_on=date(2026, 12, 24), to_on=date(2027, 1, 1))

    told = lines(feed(cast))

    assert [line for line in told if line.startswith("DT") and "DATE:" in line] == [
        "DTSTART;VALUE=DATE:20261224",
        "DTEND;VALUE=DATE:20270102",
    ]


def test_what_is_called_off_says_so_and_what_moved_is_told_once(cast: Cast) -> None:
    """3.8.1.11: STATUS:CANCELLED."""
    row, coach = training(cast.squad, weekdays=1, to_on=date(2026, 12, 14)), cast.actor_of(Role.COACH)
    call_off(actor=coach, row=row, on_date=MONDAY, scope=Scope.ONE)
    moved = {"from_on": date(2026, 12, 8)}
    change_dates(actor=coach, row=row, on_date=date(2026, 12, 7), scope=Scope.ONE, values=moved)

    told = {event["DTSTART"].dt.date(): str(event.get("STATUS", "")) for event in events(feed(cast))}

    assert told == {MONDAY: "CANCELLED", date(2026, 12, 8): "", date(2026, 12, 14): ""}


def test_athletes_feed_has_their_own_dates_and_nothing_of_others(cast: Cast) -> None:
    training(cast.squad, weekdays=1, to_on=MONDAY, name="Passing")
    Happening.objects.create(athlete=cast.athlete, kind="sport", name="Judo", from_on=MONDAY, to_on=MONDAY)
    Happening.objects.create(athlete=cast.team_mate, kind="sport", name="Rowing", from_on=MONDAY, to_on=MONDAY)
    training(cast.other_squad, weekdays=1, to_on=MONDAY, name="Not theirs")

    def told(**about: Any) -> list[str]:
        return sorted(str(row["SUMMARY"]) for row in events(feed(cast, **about)))

    assert told(athlete=cast.athlete) == ["Other sport: Judo", "Training: Passing"]
    assert told(squad=cast.squad) == ["Training: Passing"]


def test_new_address_takes_the_place_of_the_old_one(cast: Cast) -> None:
    coach = cast.actor_of(Role.COACH)
    old = make_feed(actor=coach, squad=cast.squad)

    new = make_feed(actor=coach, squad=cast.squad)

    link = feed_of(new)
    assert (feed_of(old), link and link.squad_id) == (None, cast.squad.pk)
    assert FeedLink.objects.filter(token_hash__in=[old, new]).count() == 0
    # 256 bits as text of six bits a letter.
    assert len(new) == 43
