"""The calendar's tables keep themselves honest: each constraint broken once."""

from __future__ import annotations

from datetime import date, time, timedelta

import pytest

from coachhub.base.clock import today
from coachhub.season.models import Absence, GymSlot, MatchDay, MatchMinutes
from tests.constraints import Break, assert_refused, check, twin
from tests.factories import AthleteFactory, SquadFactory, VenueFactory

pytestmark = pytest.mark.django_db

YESTERDAY: date = today() - timedelta(days=1)


def match() -> MatchDay:
    return MatchDay.objects.create(
        squad=SquadFactory.create(), on_date=today(), starts_at=time(18), opponent="Fell Side"
    )


def match_without_time() -> MatchDay:
    return MatchDay.objects.create(squad=SquadFactory.create(), on_date=today(), opponent="Fell Side")


def minutes() -> MatchMinutes:
    return MatchMinutes.objects.create(match_day=match(), athlete=AthleteFactory.create(), minutes=40)


def slot() -> GymSlot:
    return GymSlot.objects.create(
        squad=SquadFactory.create(),
        venue=VenueFactory.create(),
        weekday=0,
        starts_at=time(17),
        minutes=60,
        from_on=today(),
    )


def absence() -> Absence:
    return Absence.objects.create(athlete=AthleteFactory.create(), from_on=today(), to_on=today(), reason="ill")


BREAKS: dict[str, Break] = {
    "match_once": twin(match, "squad", "on_date", "starts_at", "opponent"),
    "match_once_without_time": twin(match_without_time, "squad", "on_date", "opponent"),
    "match_minutes_once": twin(minutes, "match_day", "athlete"),
    "match_minutes_plausible": check(minutes, minutes=241),
    "slot_weekday": check(slot, weekday=7),
    "slot_minutes": check(slot, minutes=9),
    "slot_ends_after_start": check(slot, to_on=YESTERDAY),
    "absence_ends_after_start": check(absence, to_on=YESTERDAY),
    "absence_reason": check(absence, reason="x"),
}


@pytest.mark.parametrize("name", BREAKS)
def test_constraint_refuses(name: str) -> None:
    assert_refused(name, BREAKS[name])
