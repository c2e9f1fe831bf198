"""Health on the desk: what stands and on whose word; what it did to cards; who may end it."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.db import connection
from django.db.models import Model
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coachhub.base.clock import today
from coachhub.cards.actions import note_copies
from coachhub.cards.models import CopyKind, LineStatus
from coachhub.coaching.facts import Mass
from coachhub.people.models import PainReport, RedFlag, Restriction, RestrictionException
from tests.cards.conftest import Evening
from tests.cast import Role
from tests.desk.evening import restrict_knee, tap_round
from tests.factories import PainReportFactory, RedFlagFactory, RestrictionFactory, days_ago

KNEE = {"kind": "region", "region": "knee", "side": "left", "on_word_of": "Dr Alder"}


@pytest.fixture
def coach(evening: Evening) -> Client:
    return evening.cast.client_of("coach")


def url(name: str, row: Model) -> str:
    return reverse(f"desk:{name}", kwargs={"pk": row.pk})


def restrict(client: Client, evening: Evening, **changed: object) -> Any:
    sent = {**KNEE, "starts_on": today().isoformat(), **changed}
    return client.post(url("restriction_add", evening.athlete), sent, follow=True)


def told(response: Any) -> list[str]:
    return [str(message) for message in response.context["messages"]]


def test_restriction_reaches_begun_cards_and_says_so_loudly(evening: Evening, coach: Client) -> None:
    tap_round(evening, evening.athlete)
    later = evening.assign(evening.athlete, in_days=2).cards.get()
    note_copies(cards=[(evening.card().pk, 1), (later.pk, 1)], kind=CopyKind.PRINTED)

    response = restrict(coach, evening)

    (message,) = told(response)
    assert message == (
        "In force now. 2 cards changed, 1 of them begun. "
        "2 printed or offline copies are out of date: take them back or correct them by hand."
    )
    assert evening.line(evening.squat).name == "Goblet squat"
    assert response.content.decode().count("has changed since its copy") == 2


def test_restriction_without_cards_says_so(evening: Evening, coach: Client) -> None:
    assert told(restrict(coach, evening, kind="grip")) == ["In force now. 0 cards changed."]


def test_same_restriction_sent_twice_stands_once(evening: Evening, coach: Client) -> None:
    restrict(coach, evening)

    assert restrict(coach, evening).status_code == 422
    assert Restriction.objects.count() == 1


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"kind": ""}, "kind"),
        ({"region": ""}, "region"),
        ({"on_word_of": " "}, "on_word_of"),
        ({"kind": "pattern"}, "pattern"),
        ({"kind": "exercise"}, "exercise"),
        ({"kind": "load_cap"}, "cap_value"),
        ({"kind": "load_cap", "cap_value": "-5", "cap_unit": "kg"}, "cap_value"),
        ({"kind": "load_cap", "cap_value": "10000", "cap_unit": "kg"}, "cap_value"),
        ({"kind": "load_cap", "cap_value": "heavy", "cap_unit": "kg"}, "cap_value"),
        ({"review_on": days_ago(1).isoformat()}, "review_on"),
    ],
)
def test_bad_restriction_is_said_beside_its_field(
    evening: Evening, coach: Client, changed: dict[str, object], field: str
) -> None:
    response = restrict(coach, evening, can_do="bench work", **changed)

    assert response.status_code == 422
    assert list(response.context["form"].errors) == [field]
    assert response.context["form"]["can_do"].value() == "bench work"
    assert Restriction.objects.count() == 0


def test_columns_that_the_kind_does_not_use_stay_empty(evening: Evening, coach: Client) -> None:
    restrict(coach, evening, kind="load_cap", cap_value="42,5", cap_unit="kg", pattern="hinge")

    row = Restriction.objects.get()
    assert (row.region, row.pattern, row.side, row.cap_value, row.cap_unit) == ("", "", "both", Decimal("42.5"), "kg")


def test_review_date_that_has_passed_lifts_nothing(evening: Evening, coach: Client) -> None:
    restrict_knee(evening, evening.athlete, starts_on=days_ago(9), review_on=days_ago(1), side="left")

    text = coach.get(url("athlete_health", evening.athlete)).content.decode()

    assert [words in text for words in ("left knee", "look at again")] == [True, True]
    assert evening.line(evening.split).is_dropped


def test_exception_allows_one_exercise_by_name_up_to_a_load(evening: Evening, coach: Client) -> None:
    restrict_knee(evening, evening.athlete)
    row = Restriction.objects.get()
    sent = {"exercise": evening.squat.exercise_id, "cap_value": "40", "cap_unit": "kg", "on_word_of": "Dr Alder"}

    for _ in range(2):
        coach.post(url("restriction_except", row), sent)

    assert RestrictionException.objects.count() == 1
    squat = evening.line(evening.squat)
    assert (squat.name, squat.load) == ("Front squat", Mass(Decimal(40), "kg"))
    assert evening.line(evening.split).is_dropped
    text = coach.get(url("athlete_health", evening.athlete)).content.decode()
    assert "Front squat to 40 kg, on the word of Dr Alder" in text


def test_clearing_pain_brings_lines_back_and_keeps_the_note(evening: Evening, coach: Client) -> None:
    report = PainReportFactory.create(athlete=evening.athlete, score=7)
    restrict_knee(evening, evening.athlete, kind="grip", region="")
    assert evening.line(evening.split).is_dropped

    for _ in range(2):
        coach.post(url("pain_clear", report), {"note": "only a bruise"})

    report.refresh_from_db()
    assert (report.cleared_by_id, report.cleared_note) == (evening.coach.user_id, "only a bruise")
    assert evening.line(evening.split).is_dropped is False
    assert "only a bruise" in coach.get(url("athlete_health", evening.athlete)).content.decode()


@pytest.mark.parametrize(
    ("sent", "fields"),
    [
        ({}, ["cleared_by_name", "cleared_on"]),
        ({"cleared_by_name": "Dr Alder"}, ["cleared_on"]),
        ({"cleared_by_name": "x", "cleared_on": today().isoformat()}, ["cleared_by_name"]),
        ({"cleared_by_name": "x 1 -", "cleared_on": today().isoformat()}, ["cleared_by_name"]),
        ({"cleared_on": today().isoformat()}, ["cleared_by_name"]),
        ({"cleared_by_name": "Dr Alder", "cleared_on": (today() + timedelta(days=1)).isoformat()}, ["cleared_on"]),
        ({"cleared_by_name": "Dr Alder", "cleared_on": days_ago(3).isoformat()}, ["cleared_on"]),
    ],
)
def test_red_flag_wants_a_name_and_a_date(
    evening: Evening, coach: Client, sent: dict[str, str], fields: list[str]
) -> None:
    flag = RedFlagFactory.create(athlete=evening.athlete, on_date=days_ago(1))

    response = coach.post(url("red_flag_clear", flag), sent)

    assert response.status_code == 422
    assert list(response.context["form"].errors) == fields
    assert RedFlag.objects.get().cleared_at is None
    assert evening.sheet().is_waiting


def test_clearance_lets_the_card_go_on(evening: Evening, coach: Client) -> None:
    flag = RedFlagFactory.create(athlete=evening.athlete, on_date=days_ago(1))

    for name in ("Dr Alder, physician", "somebody else"):
        coach.post(url("red_flag_clear", flag), {"cleared_by_name": name, "cleared_on": today().isoformat()})

    assert RedFlag.objects.get().cleared_by_name == "Dr Alder, physician"
    assert not evening.sheet().is_waiting


def test_athletes_page_shows_health_to_those_who_read_it(evening: Evening) -> None:
    RestrictionFactory.create(athlete=evening.athlete, side="left", diagnosis="meniscus tear", can_do="bench work")
    PainReportFactory.create(athlete=evening.athlete, region="hip")
    page = url("athlete", evening.athlete)

    words = ("left knee", "meniscus tear", "bench work", "hip, 4 of 10", "Known bests")
    seen = {}
    for role in ("coach", "clinician", "assistant", "head coach"):
        text = evening.cast.client_of(role).get(page).content.decode()
        seen[role] = [word in text for word in words]

    assert seen == {
        "coach": [True] * 5,
        "clinician": [True] * 5,
        "assistant": [False, False, True, False, True],
        "head coach": [False] * 5,
    }


def test_nothing_is_changed_for_another_squads_athlete(evening: Evening) -> None:
    other = evening.cast.client_of(Role.OTHER_COACH)
    rows = [RestrictionFactory.create(athlete=evening.athlete), PainReportFactory.create(athlete=evening.athlete)]

    assert other.post(url("restriction_lift", rows[0]), {"on_word_of": "me"}).status_code == 404
    assert other.post(url("pain_clear", rows[1])).status_code == 404
    assert (Restriction.objects.standing().count(), PainReport.objects.get().cleared_at) == (1, None)
    assert evening.card().revisions.get().lines.get(label="A1").status == LineStatus.PLANNED


@pytest.mark.parametrize(("name", "costs"), [("athlete_health", 12), ("athlete", 16)])
def test_pages_cost_few_queries_however_much_stands(evening: Evening, coach: Client, name: str, costs: int) -> None:
    def cost() -> int:
        with CaptureQueriesContext(connection) as queries:
            assert coach.get(url(name, evening.athlete)).status_code == 200
        return len(queries)

    def more() -> None:
        RestrictionFactory.create(athlete=evening.athlete)
        PainReportFactory.create(athlete=evening.athlete)
        RedFlagFactory.create(athlete=evening.athlete)

    more()
    few = cost()
    for _ in range(30):
        more()

    assert (few, cost()) == (costs, costs)
