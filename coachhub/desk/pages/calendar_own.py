"""What an athlete has besides: school, other sport; and their squads' next two weeks beside it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from django.urls import reverse
from django.utils.formats import date_format

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.coaching.series import days_between
from coachhub.desk.pages.calendar_days import Day, Entry
from coachhub.people.models import Athlete
from coachhub.season.models import Happening
from coachhub.season.queries import occasions_of, own_dates, span_of_athlete, squads_of
from coachhub.season.words import rule_words, time_words, what_words

_AHEAD: Final = timedelta(days=13)


@dataclass(frozen=True, slots=True)
class OwnLine:
    what: str
    when: str
    url: str

    @classmethod
    def of(cls, row: Happening, day: date) -> OwnLine | None:
        """At its next day; None where none comes."""
        first = max(day, row.from_on)
        coming = next(iter(occasions_of(row, row.skipped_days.all(), first, first + timedelta(weeks=9))), None)
        if coming is None:
            return None
        when = rule_words(row) or date_format(row.from_on, "j M Y")
        told = ", ".join(text for text in (when, time_words(coming)) if text)
        url = reverse("desk:happening", kwargs={"pk": row.pk, "on": coming.on_date.isoformat()})
        return cls(what_words(coming), told, url)


@dataclass(frozen=True, slots=True)
class OwnDatesPage:
    athlete: Athlete
    lines: list[OwnLine]
    days: list[Day]
    may_write: bool

    @classmethod
    def of(cls, actor: Actor, athlete: Athlete) -> OwnDatesPage:
        day = today()
        rows = own_dates(actor, athlete, day).prefetch_related("skipped_days")
        seen = squads_of(athlete, day) if actor.sees_all else squads_of(athlete, day) & actor.squad_ids
        span = span_of_athlete(athlete, day, day + _AHEAD, seen)
        coming = [Day(one, [Entry.of(entry, {}) for entry in span.on(one)]) for one in days_between(day, day + _AHEAD)]
        return cls(
            athlete=athlete,
            lines=[line for row in rows if (line := OwnLine.of(row, day))],
            days=[one for one in coming if one.entries],
            may_write=actor.may_write,
        )
