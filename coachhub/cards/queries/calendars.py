"""What athletes have on their days besides the gym."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection
from datetime import date

from coachhub.coaching.review import CalendarDay
from coachhub.people.models import Athlete, Membership
from coachhub.season.models import MatchDay, MatchMinutes


def calendars_of(athletes: Collection[Athlete], first: date, last: date) -> dict[int, list[CalendarDay]]:
    """Return per athlete the matches of all their squads, with the minutes they played where those are known."""
    days: dict[int, list[CalendarDay]] = {athlete.pk: [] for athlete in athletes}
    members: defaultdict[int, list[Membership]] = defaultdict(list)
    for row in Membership.objects.filter(athlete__in=athletes):
        members[row.squad_id].append(row)
    minutes = _minutes(athletes, first, last)
    for match in MatchDay.objects.filter(squad__in=members, on_date__range=(first, last), cancelled_at=None):
        for row in members[match.squad_id]:
            if row.is_on(match.on_date):
                played = minutes.get((match.pk, row.athlete_id))
                days[row.athlete_id].append(
                    CalendarDay(match.on_date, "match", f"m{match.pk}", match.opponent, minutes_played=played)
                )
    return days


def _minutes(athletes: Collection[Athlete], first: date, last: date) -> dict[tuple[int, int], int]:
    rows = MatchMinutes.objects.filter(athlete__in=athletes, match_day__on_date__range=(first, last))
    return {(match, athlete): played for match, athlete, played in rows.values_list("match_day", "athlete", "minutes")}
