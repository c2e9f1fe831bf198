"""Asking for paper: what is chosen, what is remembered, what comes back."""

from __future__ import annotations

from io import BytesIO
from uuid import uuid4

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from pypdf import PdfReader

from coachhub.cards.actions import note_attendance, report_red_flag
from coachhub.cards.models import AttendanceStatus, CardCopy
from coachhub.people.models import RedFlagKind
from tests.cast import Role
from tests.factories import AthleteFactory
from tests.paper.conftest import Day


@pytest.fixture
def coach(day: Day) -> Client:
    return day.cast.client_of(Role.COACH)


def copies() -> list[tuple[int, int, str]]:
    return list(CardCopy.objects.order_by("card_id").values_list("card_id", "revision_number", "kind"))


def test_looking_at_the_page_remembers_no_copy(day: Day, coach: Client) -> None:
    give = day.give(day.cast.athlete)
    assert coach.get(reverse("paper:assignment_pdf", args=[give.pk])).status_code == 200
    assert copies() == []


def test_only_chosen_cards_are_printed_and_remembered(day: Day, coach: Client) -> None:
    give = day.give(day.cast.athlete, day.cast.team_mate)
    card = give.cards.get(athlete=day.cast.team_mate)
    response = coach.post(reverse("paper:assignment_pdf", args=[give.pk]), {"card": [card.pk]})
    assert (response["Content-Type"], response["Cache-Control"]) == ("application/pdf", "no-store")
    assert response["Content-Disposition"] == f'attachment; filename="{give.on_date}-squat-and-pull-seniors.pdf"'
    (page,) = PdfReader(BytesIO(response.content)).pages
    assert ("Petra Vane" in page.extract_text(), "Ingrid Moss" in page.extract_text()) == (True, False)
    assert copies() == [(card.pk, 1, "printed")]


@pytest.mark.parametrize("chosen", [[], ["0"], ["999999"], ["x"]])
def test_nobody_or_a_stranger_chosen_prints_nothing(day: Day, coach: Client, chosen: list[str]) -> None:
    give = day.give(day.cast.athlete)
    response = coach.post(reverse("paper:assignment_pdf", args=[give.pk]), {"card": chosen})
    assert (response.status_code, response["Content-Type"]) == (422, "text/html; charset=utf-8")
    assert copies() == []


def test_card_that_waits_leaves_no_copy_behind(day: Day, coach: Client) -> None:
    give = day.give(day.cast.athlete)
    report_red_flag(actor=day.cast.actor_of(Role.COACH), athlete=day.cast.athlete, uuid=uuid4(), kind=RedFlagKind.FAINT)
    card = give.cards.get()
    response = coach.post(reverse("paper:card_pdf", args=[card.pk]))
    assert "Do not train." in PdfReader(BytesIO(response.content)).pages[0].extract_text()
    assert copies() == []


def test_athlete_prints_their_own_card_only(day: Day) -> None:
    give = day.give(day.cast.athlete, day.cast.team_mate)
    phone = day.cast.client_of(Role.ATHLETE)
    answers = {
        who.name: phone.post(reverse("paper:card_pdf", args=[give.cards.get(athlete=who).pk])).status_code
        for who in (day.cast.athlete, day.cast.team_mate)
    }
    assert answers == {"Ingrid Moss": 200, "Petra Vane": 404}


def test_absent_athlete_is_not_ticked(day: Day, coach: Client) -> None:
    give = day.give(day.cast.athlete, day.cast.team_mate)
    away, here = give.cards.get(athlete=day.cast.athlete), give.cards.get(athlete=day.cast.team_mate)
    note_attendance(actor=day.cast.actor_of(Role.COACH), card=away, status=AttendanceStatus.ABSENT)
    page = coach.get(reverse("paper:assignment_pdf", args=[give.pk])).content.decode()
    assert f'value="{here.pk}" checked' in page
    assert f'value="{away.pk}" checked' not in page


def test_page_costs_the_same_for_one_card_and_for_thirty(day: Day, coach: Client) -> None:
    counts = []
    for n in (1, 30):
        squad = [AthleteFactory.create(squad=day.cast.squad) for _ in range(n)]
        url = reverse("paper:assignment_pdf", args=[day.give(*squad).pk])
        coach.get(url)
        with CaptureQueriesContext(
            connection,
        ) as queries:
            coach.get(url)
        counts.append(len(queries))
    assert counts[0] == counts[1] <= 15
