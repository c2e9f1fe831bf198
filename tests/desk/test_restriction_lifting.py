"""Lifting a restriction on somebody's word, keeping it, and bringing back what was lifted by mistake."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest
from django.test import Client

from coachhub.base.clock import today
from coachhub.people.models import Restriction
from tests.cards.conftest import Evening
from tests.cast import Role
from tests.desk.evening import restrict_knee
from tests.desk.test_cards_health import restrict, told, url
from tests.factories import days_ago


@pytest.fixture
def coach(evening: Evening) -> Client:
    return evening.cast.client_of("coach")


def test_lifting_wants_a_word_and_brings_lines_back(evening: Evening, coach: Client) -> None:
    restrict_knee(evening, evening.athlete)
    row = Restriction.objects.get()
    assert coach.post(url("restriction_lift", row)).status_code == 422
    assert Restriction.objects.standing().count() == 1

    for _ in range(2):
        coach.post(url("restriction_lift", row), {"on_word_of": "Dr Alder"})

    row.refresh_from_db()
    assert (row.lifted_on_word_of, row.lifted_by_id) == ("Dr Alder", evening.coach.user_id)
    assert evening.line(evening.split).is_dropped is False


def test_lifting_on_another_word_is_asked_about_once(evening: Evening, coach: Client) -> None:
    restrict_knee(evening, evening.athlete, on_word_of="Dr Birk")
    row = Restriction.objects.get()
    assert 'value="Dr Birk"' in coach.get(url("restriction_lift", row)).content.decode()

    asked = coach.post(url("restriction_lift", row), {"on_word_of": "ok"})
    assert (asked.status_code, Restriction.objects.standing().count()) == (422, 1)
    assert "set on the word of Dr Birk and would be lifted on another" in asked.content.decode()

    coach.post(url("restriction_lift", row), {"on_word_of": "Dr Alder", "sure": "on"})
    row.refresh_from_db()
    assert (row.lifted_on_word_of, Restriction.objects.standing().count()) == ("Dr Alder", 0)


def test_same_name_written_otherwise_is_the_same_word(evening: Evening, coach: Client) -> None:
    restrict_knee(evening, evening.athlete, on_word_of="Dr Birk")
    coach.post(url("restriction_lift", Restriction.objects.get()), {"on_word_of": " dr  birk"})
    assert Restriction.objects.standing().count() == 0


def test_lifted_by_mistake_it_stands_again_with_all_it_said(evening: Evening, coach: Client) -> None:
    restrict(coach, evening, can_do="bike", diagnosis="meniscus", review_on=days_ago(-9).isoformat())
    row = Restriction.objects.get()
    sent = {"exercise": evening.squat.exercise_id, "cap_value": "40", "cap_unit": "kg", "on_word_of": "Dr Alder"}
    coach.post(url("restriction_except", row), sent)
    coach.post(url("restriction_lift", row), {"on_word_of": "Dr Alder"})
    assert "Bring it back" in coach.get(url("athlete_health", evening.athlete)).content.decode()

    first, second = (coach.post(url("restriction_again", row), follow=True) for _ in range(2))

    assert (told(first)[0][:15], told(second)) == ("In force again.", ["In force again. 0 cards changed."])
    again = Restriction.objects.standing().get()
    said = ("region", "side", "can_do", "diagnosis", "on_word_of", "review_on", "is_clinical")
    assert [getattr(again, name) for name in said] == [getattr(row, name) for name in said]
    assert list(again.exceptions.values_list("exercise", "cap_value")) == [(evening.squat.exercise_id, Decimal(40))]
    assert evening.line(evening.split).is_dropped


@pytest.mark.parametrize(("days", "status"), [(366, 302), (367, 422), (0, 422)])
def test_next_look_is_within_a_year(evening: Evening, coach: Client, days: int, status: int) -> None:
    restrict_knee(evening, evening.athlete)
    review_on = (today() + timedelta(days=days)).isoformat()
    assert (
        coach.post(url("restriction_keep", Restriction.objects.get()), {"review_on": review_on}).status_code == status
    )


def test_clinicians_hold_is_ended_by_a_clinician(evening: Evening, coach: Client) -> None:
    clinician = evening.cast.client_of(Role.CLINICIAN)
    restrict(clinician, evening)
    row = Restriction.objects.get()
    assert row.is_clinical

    assert "only a clinician" in coach.get(url("restriction_lift", row)).content.decode()
    for name in ("restriction_lift", "restriction_except"):
        assert coach.post(url(name, row), {"on_word_of": "me", "exercise": evening.goblet.pk}).status_code == 403
    assert Restriction.objects.standing().count() == 1

    clinician.post(url("restriction_lift", row), {"on_word_of": "Dr Alder"})
    assert Restriction.objects.standing().count() == 0
