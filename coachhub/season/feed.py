"""Dates as an iCalendar file (RFC 5545) for a calendar program: when, what and where; nothing of health, of loads or of
anybody else."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, date, datetime, timedelta
from typing import TYPE_CHECKING, Final
from zoneinfo import ZoneInfo

from django.utils.crypto import salted_hmac

from coachhub.coaching.series import MATCH, SLOT, Occasion
from coachhub.season.models import FeedLink, GymSlot, Happening, MatchDay
from coachhub.season.queries import Span, span_of_athlete, span_of_squads, squads_of
from coachhub.season.words import summary_words

if TYPE_CHECKING:
    from icalendar import Event

BACK: Final = timedelta(days=90)
AHEAD: Final = timedelta(days=400)
# What a match blocks in somebody's calendar. Common practice: two halves, a break, and the warm-up are about this long.
MATCH_MINUTES: Final = 120
# From when a row was last changed to what is told of it.
Version = tuple[int, datetime]


def feed_file(link: FeedLink, zone: str, day: date, club: str) -> bytes:
    """Every day of a series as an event of its own in UTC, so that no program has to know the club's zone."""
    from icalendar import Calendar

    calendar = Calendar()
    calendar.add("prodid", "-//coachhub//calendar//EN")
    calendar.add("version", "2.0")
    calendar.add("method", "PUBLISH")
    calendar.add("x-wr-calname", f"{link.athlete or link.squad}, {club}")
    span = _span_of(link, day)
    versions = _versions(span.occasions)
    for one in span.occasions:
        if not one.is_off:
            calendar.add_component(_event(one, versions[_row_of(one)], ZoneInfo(zone)))
    return bytes(calendar.to_ical())


def _span_of(link: FeedLink, day: date) -> Span:
    first, last = day - BACK, day + AHEAD
    if link.athlete is not None:
        return span_of_athlete(link.athlete, first, last, squads_of(link.athlete, day))
    return span_of_squads([link.squad_id or 0], first, last)


def _event(one: Occasion, version: Version, zone: ZoneInfo) -> Event:
    from icalendar import Event

    event = Event()
    event.add("uid", uid_of(one))
    sequence, changed_at = version
    # The program that reads it has no instance before it: the stamp is that of the last change (3.8.7.2).
    event.add("dtstamp", changed_at.astimezone(UTC))
    event.add("last-modified", changed_at.astimezone(UTC))
    event.add("sequence", sequence)
    event.add("summary", summary_words(one))
    if one.place:
        event.add("location", one.place)
    if one.is_cancelled:
        event.add("status", "CANCELLED")
    for name, value in _when(one, zone):
        event.add(name, value)
    return event


def _when(one: Occasion, zone: ZoneInfo) -> Iterable[tuple[str, date | datetime]]:
    """By the clock where a time is known, else whole days; the end of those is the day after (3.6.1)."""
    if one.starts_at is None:
        return [("dtstart", one.on_date), ("dtend", one.to_on + timedelta(days=1))]
    start = datetime.combine(one.on_date, one.starts_at, tzinfo=zone).astimezone(UTC)
    minutes = one.minutes or (MATCH_MINUTES if one.kind == MATCH else 0)
    if one.to_on > one.on_date:
        end = datetime.combine(one.to_on, one.starts_at, tzinfo=zone).astimezone(UTC) + timedelta(minutes=minutes)
        return [("dtstart", start), ("dtend", end)]
    return [("dtstart", start), ("dtend", start + timedelta(minutes=minutes))] if minutes else [("dtstart", start)]


def uid_of(one: Occasion) -> str:
    """The same at every reading, and no other installation's (3.8.4.7)."""
    home = salted_hmac("coachhub.season.feed", "club", algorithm="sha256").hexdigest()[:20]
    day = f"-{one.on_date:%Y%m%d}" if one.is_series else ""
    kind, pk = _row_of(one)
    return f"{kind}-{pk}{day}@{home}.coachhub"


def _row_of(one: Occasion) -> tuple[str, int]:
    return (one.kind if one.kind in (MATCH, SLOT) else "date", one.pk)


def _versions(occasions: Iterable[Occasion]) -> dict[tuple[str, int], Version]:
    rows = {_row_of(one) for one in occasions}
    tables = {MATCH: MatchDay.objects, SLOT: GymSlot.objects, "date": Happening.objects}
    return {
        (kind, pk): (sequence, changed_at)
        for kind, table in tables.items()
        for pk, sequence, changed_at in table.filter(pk__in=[pk for of, pk in rows if of == kind]).values_list(
            "pk", "sequence", "changed_at"
        )
    }
