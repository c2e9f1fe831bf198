"""Who comes to the door: a guest in one form, and somebody late."""

from __future__ import annotations

from typing import Any
from uuid import UUID

import pytest
from django.test import Client
from django.urls import reverse

from coachhub.cards.models import Attendance, Card, DoorChange
from coachhub.desk.pages.cards_floor import FloorLine, FloorPage, find_pulse
from coachhub.people.models import Athlete
from tests.cards.conftest import Evening
from tests.factories import ConsentFactory, GuardianshipFactory, years_ago

UUID_ONE = UUID("00000000-0000-4000-8000-000000000001")


def address(evening: Evening, name: str) -> str:
    return reverse(f"desk:{name}", kwargs={"pk": evening.assignment.pk})


def line_of(evening: Evening, athlete: Athlete) -> FloorLine:
    page = FloorPage.of(evening.coach, find_pulse(evening.coach, evening.assignment.pk))
    return next(line for line in page.lines if line.row.athlete == athlete)


def late(client: Client, evening: Evening, **said: Any) -> Any:
    return client.post(
        address(evening, "floor_late"), {"uuid": UUID_ONE, "card": evening.card().pk, "minutes": 10, **said}
    )


@pytest.fixture
def coach(evening: Evening) -> Client:
    return evening.cast.client_of("coach")


def test_guest_stands_on_the_floor_with_a_card(evening: Evening, coach: Client) -> None:
    said = {"given_name": "Sorrel", "family_name": "Quill", "born_on": years_ago(15).isoformat()}

    for _ in range(2):
        response = coach.post(address(evening, "floor_guest"), said, follow=True)

    assert Card.objects.filter(assignment=evening.assignment).count() == 3
    assert "Sorrel Quill" in response.content.decode()


def test_guest_without_a_plausible_birthday_is_refused_and_the_name_kept(evening: Evening, coach: Client) -> None:
    said = {"given_name": "Sorrel", "family_name": "Quill", "born_on": "2126-01-01"}

    response = coach.post(address(evening, "floor_guest"), said)

    assert response.status_code == 422
    assert response.context["form"].errors == {"born_on": ["Please check the year."]}
    assert 'value="Sorrel"' in response.content.decode()


def test_late_says_what_would_fit(evening: Evening, coach: Client) -> None:
    response = coach.get(address(evening, "floor_late"), {"card": evening.card().pk, "minutes": 1})

    page = response.context["page"]
    assert [one.text for one in page.offers][:3] == [
        "the session as it is",
        "round 4 of block A cut; round 3 of block B cut",
        "block B left out",
    ]
    assert page.best == len(page.offers) - 1


def test_late_is_noted_and_the_card_cut_when_the_coach_takes_it(evening: Evening, coach: Client) -> None:
    for _ in range(2):
        late(coach, evening, cut=1)

    assert {(row.status, row.minutes_left) for row in Attendance.objects.all()} == {("late", 10)}
    assert (evening.sheet().blocks[0].rounds_max, DoorChange.objects.count()) == (3, 1)
    assert evening.sheet(evening.cast.team_mate).blocks[0].rounds_max == 4
    row = line_of(evening, evening.athlete).row
    assert (row.minutes_left, row.is_absent) == (10, False)


def test_assistant_notes_late_and_changes_no_card(evening: Evening) -> None:
    assistant = evening.cast.client_of("assistant")

    page = assistant.get(address(evening, "floor_late"), {"card": evening.card().pk, "minutes": 5}).context["page"]
    late(assistant, evening, cut=1)

    assert (page.offers, evening.card().revision_number, Attendance.objects.get().status) == ((), 1, "late")


@pytest.mark.parametrize("minutes", ["0", "soon", "301"])
def test_minutes_that_cannot_be_are_refused(evening: Evening, coach: Client, minutes: str) -> None:
    response = late(coach, evening, minutes=minutes)

    assert (response.status_code, list(response.context["form"].errors)) == (422, ["minutes"])
    assert Attendance.objects.count() == 0


def test_contact_can_be_called_from_the_floor(evening: Evening, coach: Client) -> None:
    Athlete.objects.filter(pk=evening.athlete.pk).update(emergency_contact="Runa Moss 01632 960 101")
    GuardianshipFactory.create(
        athlete=evening.cast.team_mate, guardian__name="Odd Vane", guardian__phone="01632 960 102"
    )

    text = coach.get(address(evening, "floor")).content.decode()

    assert '<a href="tel:01632960101">Runa Moss 01632 960 101</a>' in text
    assert '<a href="tel:01632960102">Odd Vane 01632 960 102</a>' in text


def test_consent_is_told_on_the_floor(evening: Evening, coach: Client) -> None:
    ConsentFactory.create(athlete=evening.athlete)

    mine, other = (line_of(evening, a).row.has_consent for a in (evening.athlete, evening.cast.team_mate))

    assert (mine, other) == (True, False)
    text = coach.get(address(evening, "floor")).content.decode()
    assert text.count("No consent to strength training on file") == 1
