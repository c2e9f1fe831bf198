"""DESIGN's safety sentences, as far as cards reach them."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from uuid import uuid4

import pytest
from django.core.exceptions import PermissionDenied

from coachhub.base.clock import today
from coachhub.cards.actions import (
    add_exception,
    clear_pain,
    clear_red_flag,
    lift_restriction,
    log_round_as_planned,
    report_pain,
    report_red_flag,
    restrict_athlete,
)
from coachhub.cards.models import Card, SetEntry
from coachhub.cards.queries import load_sheets
from coachhub.coaching.facts import Mass
from coachhub.people.models import PainReport, RedFlag, RedFlagKind, Restriction
from tests.cards.conftest import Evening, tap
from tests.cast import Role


def restrict(evening: Evening, role: Role = Role.COACH, **fields: object) -> Restriction:
    said = {"kind": "region", "region": "knee", "on_word_of": "Dr Alder", "starts_on": today()} | fields
    restriction, _ = restrict_athlete(actor=evening.cast.actor_of(role), athlete=evening.athlete, **said)
    return restriction


def do_round(evening: Evening) -> None:
    sheet = evening.sheet()
    log_round_as_planned(
        actor=evening.phone,
        card=evening.card(),
        sheet=sheet,
        group_key=sheet.blocks[0].key,
        tap=tap(sheet.blocks[0].rounds_done + 1, sheet.next_seq),
    )


def pain(evening: Evening, score: int, *, sore: bool = False) -> PainReport:
    return report_pain(
        actor=evening.phone,
        athlete=evening.athlete,
        uuid=uuid4(),
        region="knee",
        side="left",
        score=score,
        is_sore_only=sore,
    )


def test_new_restriction_reaches_a_card_that_exists(evening: Evening) -> None:
    restrict(evening)
    assert [evening.line(p).name for p in (evening.squat, evening.hinge)] == ["Goblet squat", "Romanian deadlift"]
    assert (evening.line(evening.split).is_dropped, evening.sheet().revision.reason) == (True, "restricted")


def test_new_restriction_changes_a_begun_card_and_facts_stay(evening: Evening) -> None:
    do_round(evening)
    restrict(evening)
    assert evening.line(evening.squat).name == "Goblet squat"
    assert SetEntry.objects.filter(exercise__name="Front squat").count() == 1


def test_restriction_leaves_other_lines_and_other_athletes_alone(evening: Evening) -> None:
    restrict(evening)
    assert evening.line(evening.hinge).load == Mass(Decimal(60), "kg")
    assert evening.card(evening.cast.team_mate).revision_number == 1


def test_old_revision_stays_readable(evening: Evening) -> None:
    restrict(evening)
    names = [r.lines.get(line_key=evening.squat.line_key).name for r in evening.card().revisions.all()]
    assert names == ["Front squat", "Goblet squat"]


def test_restriction_never_ends_by_itself(evening: Evening) -> None:
    restriction = restrict(evening, starts_on=today() - timedelta(days=30), review_on=today() - timedelta(days=1))
    later = evening.assign(evening.athlete, in_days=7).cards.get()
    line = later.revisions.get().lines.get(line_key=evening.squat.line_key)
    assert (restriction.needs_review_on(today()), line.name) == (True, "Goblet squat")


def test_lifting_brings_the_line_back(evening: Evening) -> None:
    restriction = restrict(evening)
    lift_restriction(actor=evening.coach, restriction=restriction, on_word_of="Dr Alder")
    assert evening.line(evening.squat).name == "Front squat"


def test_clinicians_hold_is_cleared_by_a_clinician(evening: Evening) -> None:
    hold = restrict(evening, Role.CLINICIAN)
    with pytest.raises(PermissionDenied):
        lift_restriction(actor=evening.coach, restriction=hold, on_word_of="me")
    lift_restriction(actor=evening.cast.actor_of(Role.CLINICIAN), restriction=hold, on_word_of="Dr Alder")
    assert evening.line(evening.squat).name == "Front squat"


def test_named_exception_keeps_the_restriction_and_the_cap(evening: Evening) -> None:
    restriction = restrict(evening)
    add_exception(
        actor=evening.coach,
        restriction=restriction,
        exercise=evening.squat.exercise,
        on_word_of="Dr Alder",
        cap=Mass(Decimal(30), "kg"),
    )
    line = evening.line(evening.squat)
    assert (line.name, line.load, evening.line(evening.split).is_dropped) == (
        "Front squat",
        Mass(Decimal(30), "kg"),
        True,
    )


def test_set_done_against_a_restriction_is_stored_and_flagged(evening: Evening) -> None:
    sheet = evening.sheet()
    restrict(evening)
    log_round_as_planned(
        actor=evening.phone, card=evening.card(), sheet=sheet, group_key=sheet.blocks[0].key, tap=tap()
    )
    split = SetEntry.objects.filter(line_key=evening.split.line_key)
    assert [entry.is_flagged for entry in split] == [True, True]


@pytest.mark.parametrize(("score", "comes_off"), [(5, False), (6, True)])
def test_pain_of_six_takes_lines_off_todays_card(evening: Evening, score: int, comes_off: bool) -> None:
    pain(evening, score)
    assert evening.line(evening.split).is_dropped is comes_off


@pytest.mark.parametrize(("score", "comes_off"), [(2, False), (3, True)])
def test_pain_of_three_takes_lines_off_a_minors_card(evening: Evening, score: int, comes_off: bool) -> None:
    evening.athlete.born_on = today().replace(year=today().year - 15, day=1)
    evening.athlete.save()
    pain(evening, score)
    assert evening.line(evening.split).is_dropped is comes_off


def test_muscle_soreness_takes_nothing_off(evening: Evening) -> None:
    pain(evening, 8, sore=True)
    assert evening.line(evening.split).is_dropped is False


def test_cleared_pain_brings_the_lines_back(evening: Evening) -> None:
    report = pain(evening, 7)
    clear_pain(actor=evening.coach, report=report)
    assert evening.line(evening.split).is_dropped is False


def test_pain_sent_twice_is_stored_once(evening: Evening) -> None:
    uuid = uuid4()
    for _ in range(2):
        report_pain(actor=evening.phone, athlete=evening.athlete, uuid=uuid, region="knee", side="left", score=7)
    assert (PainReport.objects.count(), evening.card().revision_number) == (1, 2)


def test_red_flag_stops_the_card_and_coming_ones_until_cleared(evening: Evening) -> None:
    flag = report_red_flag(actor=evening.phone, athlete=evening.athlete, uuid=uuid4(), kind=RedFlagKind.HEAD_KNOCK)
    evening.assign(evening.athlete, in_days=7)
    assert all(sheet.is_waiting for sheet in load_sheets(Card.objects.filter(athlete=evening.athlete)))
    clear_red_flag(actor=evening.coach, flag=flag, cleared_by_name="Dr Alder", cleared_on=today())
    assert evening.sheet().is_waiting is False


def test_set_on_a_stopped_card_is_stored_and_flagged(evening: Evening) -> None:
    report_red_flag(actor=evening.phone, athlete=evening.athlete, uuid=uuid4(), kind=RedFlagKind.CHEST_PAIN)
    do_round(evening)
    assert set(SetEntry.objects.values_list("is_flagged", flat=True)) == {True}


def test_athlete_clears_nothing(evening: Evening) -> None:
    report = pain(evening, 7)
    flag = report_red_flag(actor=evening.phone, athlete=evening.athlete, uuid=uuid4(), kind=RedFlagKind.POP)
    with pytest.raises(PermissionDenied):
        clear_pain(actor=evening.phone, report=report)
    with pytest.raises(PermissionDenied):
        clear_red_flag(actor=evening.phone, flag=flag, cleared_by_name="me", cleared_on=today())
    assert RedFlag.objects.get().cleared_at is None


def test_team_mate_reports_nothing_of_others(evening: Evening) -> None:
    with pytest.raises(PermissionDenied):
        report_pain(
            actor=evening.cast.actor_of(Role.TEAM_MATE),
            athlete=evening.athlete,
            uuid=uuid4(),
            region="knee",
            side="left",
            score=7,
        )
