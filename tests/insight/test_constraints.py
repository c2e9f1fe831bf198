"""The tables of tests, wellness and effort keep themselves honest: each constraint broken once."""

from __future__ import annotations

from decimal import Decimal

import pytest

from coachhub.base.clock import now, today
from coachhub.insight.models import EffortLoad, Flag, SessionNote, Trial, TrialResult, WellnessEntry
from tests.constraints import Break, assert_refused, check, refusal, twin
from tests.factories import AthleteFactory, EffortLoadFactory, SessionNoteFactory, SquadFactory

pytestmark = pytest.mark.django_db

ITEMS = ("fatigue", "sleep", "soreness", "stress", "mood")


def trial() -> Trial:
    return Trial.objects.create(squad=SquadFactory.create(), name="Standing jump", unit="cm", on_date=today())


def result() -> TrialResult:
    return TrialResult.objects.create(trial=trial(), athlete=AthleteFactory.create(), value=Decimal("41.5"))


def wellness() -> WellnessEntry:
    threes = dict.fromkeys(ITEMS, 3)
    return WellnessEntry.objects.create(athlete=AthleteFactory.create(), on_date=today(), received_at=now(), **threes)


def effort() -> EffortLoad:
    return EffortLoadFactory.create()


def note() -> SessionNote:
    return SessionNoteFactory.create()


def flag() -> Flag:
    return Flag.objects.create(athlete=AthleteFactory.create(), code="no-rise", severity="note", raised_on=today())


BREAKS: dict[str, Break] = {
    "trial_once": twin(trial, "squad", "name", "on_date"),
    "trial_result_once": twin(result, "trial", "athlete", "attempt"),
    "trial_value_positive": check(result, value=0),
    "wellness_once_a_day": twin(wellness, "athlete", "on_date"),
    "wellness_1_5": check(wellness, mood=6),
    "EffortLoad.uuid": twin(effort, "uuid"),
    "effort_0_10": check(effort, effort=11),
    "effort_minutes_plausible": check(effort, minutes=0),
    "SessionNote.uuid": twin(note, "uuid"),
    "note_read_by_someone": check(note, read_at=now()),
    "flag_once_a_day": twin(flag, "athlete", "code", "raised_on"),
    "flag_severity": check(flag, severity="x"),
}


@pytest.mark.parametrize("name", BREAKS)
def test_constraint_refuses(name: str) -> None:
    assert_refused(name, BREAKS[name])


@pytest.mark.parametrize("item", ITEMS)
def test_each_wellness_item_stays_between_1_and_5(item: str) -> None:
    assert "wellness_1_5" in refusal(check(wellness, **{item: 0}))
