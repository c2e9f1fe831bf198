"""What athletes have on their days besides the gym."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterator
from datetime import date
from typing import Final

from coachhub.coaching.review import CalendarDay
from coachhub.coaching.review.athlete import DayKind
from coachhub.coaching.series import MATCH, OTHER, SCHOOL, SPORT, TEST, TRAINING, Occasion, days_between
from coachhub.people.models import Athlete, Membership
from coachhub.season.models import Happening, MatchMinutes, SkippedDay
from coachhub.season.queries import occasions_of, span_of_squads

# Gym slots are empty hours until a session is given, and holidays are free.
_KINDS: Final[dict[str, DayKind]] = {
    MATCH: "match",
    TRAINING: "training",
    TEST: "training",
    OTHER: "other",
    SCHOOL: "school",
    SPORT: "other",
}


def calendars_of(athletes: Collection[Athlete], first: date, last: date) -> dict[int, list[CalendarDay]]:
    """Return per athlete what all their squads have, with the minutes they played, and what they have besides."""
    days: dict[int, list[CalendarDay]] = {athlete.pk: [] for athlete in athletes}
    members: defaultdict[int | None, list[Membership]] = defaultdict(list)
    for row in Membership.objects.filter(athlete__in=athletes):
        members[row.squad_id].append(row)
    minutes = _minutes(athletes, first, last)
    squads = {row.squad_id for rows in members.values() for row in rows}
    for one in span_of_squads(squads, first, last).of_kind(*_KINDS):
        for row in members[one.squad_id]:
            played = minutes.get((one.pk, row.athlete_id)) if one.kind == MATCH else None
            days[row.athlete_id] += [day for day in _days(one, first, last, played) if row.is_on(day.on_date)]
    for one in _own(athletes, first, last):
        if one.athlete_id is not None and one.takes_place:
            days[one.athlete_id] += _days(one, first, last)
    return days


def _days(one: Occasion, first: date, last: date, played: int | None = None) -> Iterator[CalendarDay]:
    """Each of its days between these."""
    for day in days_between(max(one.on_date, first), min(one.to_on, last)):
        key = f"m{one.pk}" if one.kind == MATCH else f"{one.kind}{one.pk}.{day}"
        yield CalendarDay(day, _KINDS[one.kind], key, one.name, minutes_played=played)


def _own(athletes: Collection[Athlete], first: date, last: date) -> Iterator[Occasion]:
    rows = list(Happening.objects.filter(athlete__in=athletes, from_on__lte=last).exclude(to_on__lt=first))
    skipped: defaultdict[int | None, list[SkippedDay]] = defaultdict(list)
    for skip in SkippedDay.objects.filter(happening__in=rows, on_date__range=(first, last)):
        skipped[skip.happening_id].append(skip)
    for row in rows:
        yield from occasions_of(row, skipped[row.pk], first, last)


def _minutes(athletes: Collection[Athlete], first: date, last: date) -> dict[tuple[int, int], int]:
    rows = MatchMinutes.objects.filter(athlete__in=athletes, match_day__on_date__range=(first, last))
    return {(match, athlete): played for match, athlete, played in rows.values_list("match_day", "athlete", "minutes")}
