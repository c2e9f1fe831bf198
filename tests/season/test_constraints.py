"""The calendar's tables keep themselves honest: each constraint broken once."""

from __future__ import annotations

from datetime import date, time, timedelta

import pytest

from coachhub.base.clock import now, today
from coachhub.season.models import (
    Absence,
    FeedLink,
    GymSlot,
    Happening,
    MatchDay,
    MatchMinutes,
    PhaseTarget,
    SeasonPhase,
    SkippedDay,
)
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


def training() -> Happening:
    """On Mondays, without end."""
    return Happening.objects.create(
        squad=SquadFactory.create(), kind="training", from_on=today(), weekdays=1, uid=f"{Happening.objects.count()}@x"
    )


def other_sport() -> Happening:
    return Happening.objects.create(athlete=AthleteFactory.create(), kind="sport", from_on=today(), to_on=today())


def imported_match() -> MatchDay:
    number = MatchDay.objects.count()
    squad = SquadFactory.create()
    return MatchDay.objects.create(squad=squad, on_date=today(), opponent=f"Fell Side {number}", uid=f"{number}@x")


def called_off() -> SkippedDay:
    return SkippedDay.objects.create(happening=training(), on_date=today())


def slot_called_off() -> SkippedDay:
    return SkippedDay.objects.create(slot=slot(), on_date=today())


def squads_feed() -> FeedLink:
    token_hash = f"squad {FeedLink.objects.count()}"
    return FeedLink.objects.create(squad=SquadFactory.create(), token_hash=token_hash, made_at=now())


def athletes_feed() -> FeedLink:
    token_hash = f"athlete {FeedLink.objects.count()}"
    return FeedLink.objects.create(athlete=AthleteFactory.create(), token_hash=token_hash, made_at=now())


def phase() -> SeasonPhase:
    return SeasonPhase.objects.create(squad=SquadFactory.create(), code="power", from_on=today(), to_on=today())


def target() -> PhaseTarget:
    return PhaseTarget.objects.create(phase=phase(), pattern="hinge", low=3, high=8)


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
    "phase_code": check(phase, code="x"),
    "phase_ends_after_start": check(phase, to_on=YESTERDAY),
    "phase_target_once": twin(target, "phase", "pattern"),
    "phase_target_pattern": check(target, pattern="carry"),
    "phase_target_range": check(target, low=9),
    "absence_reason": check(absence, reason="x"),
    "match_uid_once": twin(imported_match, "squad", "uid"),
    "happening_of_squad_or_athlete": check(other_sport, kind="training"),
    "happening_ends_after_start": check(other_sport, to_on=YESTERDAY),
    "happening_ends_or_repeats": check(training, weekdays=0),
    "happening_weekdays": check(training, weekdays=128),
    "happening_every_weeks": check(training, every_weeks=0),
    "happening_minutes": check(training, minutes=1441),
    "happening_uid_once": twin(training, "squad", "uid"),
    "skipped_day_of_one_series": check(called_off, happening=None),
    "happening_skipped_once": twin(called_off, "happening", "on_date"),
    "slot_skipped_once": twin(slot_called_off, "slot", "on_date"),
    "FeedLink.token_hash": twin(squads_feed, "token_hash"),
    "feed_of_squad_or_athlete": check(squads_feed, squad=None),
    "one_feed_a_squad": twin(squads_feed, "squad"),
    "one_feed_an_athlete": twin(athletes_feed, "athlete"),
}


@pytest.mark.parametrize("name", BREAKS)
def test_constraint_refuses(name: str) -> None:
    assert_refused(name, BREAKS[name])
