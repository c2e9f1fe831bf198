"""An athlete's own calendar on the phone: what the squads do, and what they have besides."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Final

from django.http import HttpRequest
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.utils.formats import date_format

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.coaching.series import Occasion, days_between
from coachhub.people.models import Athlete
from coachhub.season.models import Happening
from coachhub.season.queries import live_feed, own_dates, span_of_athlete, squads_of
from coachhub.season.words import rule_words, state_words, time_words, what_words

_AHEAD: Final = timedelta(days=13)


@dataclass(frozen=True, slots=True)
class DateLine:
    what: str
    when: str
    state: str

    @classmethod
    def of(cls, one: Occasion) -> DateLine:
        return cls(what_words(one), time_words(one), state_words(one))


@dataclass(frozen=True, slots=True)
class DateDay:
    day: date
    lines: list[DateLine]


@dataclass(frozen=True, slots=True)
class OwnLine:
    pk: int
    what: str
    when: str

    @classmethod
    def of(cls, row: Happening) -> OwnLine:
        kind = str(row.get_kind_display()).capitalize()
        start = f"{row.starts_at:%H:%M}" if row.starts_at else ""
        told = (rule_words(row) or date_format(row.from_on, "j M Y"), start)
        return cls(row.pk, f"{kind}: {row.name}" if row.name else kind, ", ".join(text for text in told if text))


@dataclass(frozen=True, slots=True)
class DatesPage:
    name: str
    days: list[DateDay]
    own: list[OwnLine]

    @classmethod
    def of(cls, actor: Actor, athlete: Athlete) -> DatesPage:
        day = today()
        span = span_of_athlete(athlete, day, day + _AHEAD, squads_of(athlete, day))
        days = [DateDay(one, [DateLine.of(entry) for entry in span.on(one)]) for one in days_between(day, span.last)]
        rows = own_dates(actor, athlete, day)
        return cls(actor.name, [one for one in days if one.lines], [OwnLine.of(row) for row in rows])


@dataclass(frozen=True, slots=True)
class FeedPage:
    """`address` is empty unless it was made just now."""

    made_at: datetime | None
    address: str
    is_squad: bool = False

    @classmethod
    def of(cls, request: HttpRequest, athlete: Athlete, token: str) -> FeedPage:
        link = live_feed(athlete=athlete)
        address = request.build_absolute_uri(reverse("front:feed", kwargs={"token": token})) if token else ""
        return cls(link.made_at if link else None, address)


@dataclass(frozen=True, slots=True)
class DateFormPage:
    """`pk` of the date that is changed; None for a new one."""

    pk: int | None = None


def find_own(athlete: Athlete, pk: int) -> Happening:
    return get_object_or_404(Happening.objects.filter(athlete=athlete), pk=pk)
