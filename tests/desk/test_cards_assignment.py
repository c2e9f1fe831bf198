"""An assignment: what its cards are up to; a changed session leaves begun cards alone and offers to renew the rest."""

from __future__ import annotations

from decimal import Decimal

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coachhub.cards.actions import note_attendance, note_copies
from coachhub.cards.models import AttendanceStatus, Card, CardRevision, CopyKind, SetEntry
from coachhub.desk.pages.cards_assignment import AssignmentPage
from coachhub.plans.models import Prescription, Session
from tests.cards.conftest import Evening
from tests.desk.evening import restrict_knee, tap_round
from tests.factories import AthleteFactory, RedFlagFactory


def address(name: str, evening: Evening) -> str:
    return reverse(f"desk:{name}", kwargs={"pk": evening.assignment.pk})


def rewrite(evening: Evening, load: int) -> None:
    """The coach writes another load for A1: the session has a new revision."""
    Prescription.objects.filter(pk=evening.squat.pk).update(load=Decimal(load))
    Session.objects.filter(pk=evening.session.pk).update(revision=evening.session.revision + 1)


def a1(evening: Evening) -> list[Decimal]:
    """A1's load on the athlete's and on the team-mate's card."""
    loads = [evening.line(evening.squat, who).load for who in (evening.athlete, evening.cast.team_mate)]
    return [load.value for load in loads if load]


@pytest.fixture
def coach(evening: Evening) -> Client:
    return evening.cast.client_of("coach")


def test_changed_session_leaves_the_begun_card_and_renews_the_other(evening: Evening, coach: Client) -> None:
    tap_round(evening, evening.athlete)
    before = list(SetEntry.objects.values())

    rewrite(evening, 50)
    assert a1(evening) == [60, 60]
    page = AssignmentPage.of(evening.coach, evening.assignment.pk)
    assert [(row.name, row.is_begun, row.is_stale) for row in page.cards] == [
        ("Ingrid Moss", True, False),
        ("Petra Vane", False, True),
    ]
    assert "Renew 1 card" in coach.get(address("assignment", evening)).content.decode()

    coach.post(address("assignment_renew", evening))
    assert a1(evening) == [60, 50]
    assert AssignmentPage.of(evening.coach, evening.assignment.pk).stale == 0
    assert list(SetEntry.objects.values()) == before


def test_renewing_twice_makes_one_revision(evening: Evening, coach: Client) -> None:
    rewrite(evening, 50)

    for _ in range(2):
        coach.post(address("assignment_renew", evening))

    numbers = CardRevision.objects.order_by("card", "number").values_list("number", flat=True)
    assert list(numbers) == [1, 2, 1, 2]


def test_one_card_alone_is_renewed(evening: Evening, coach: Client) -> None:
    rewrite(evening, 50)

    coach.post(address("assignment_renew", evening), {"card": evening.card(evening.cast.team_mate).pk})

    assert a1(evening) == [60, 50]


def test_card_of_another_assignment_is_not_renewed(evening: Evening, coach: Client) -> None:
    other = evening.assign(evening.athlete, in_days=1).cards.get()

    response = coach.post(address("assignment_renew", evening), {"card": other.pk})

    assert response.status_code == 404


def test_states_of_cards_are_told(evening: Evening) -> None:
    card = evening.card()
    note_copies(cards=[(card.pk, 1)], kind=CopyKind.PRINTED)
    restrict_knee(evening, evening.athlete)
    note_attendance(actor=evening.coach, card=card, status=AttendanceStatus.ABSENT)
    RedFlagFactory.create(athlete=evening.cast.team_mate)

    first, second = AssignmentPage.of(evening.coach, evening.assignment.pk).cards

    assert (first.is_absent, first.old_copy, first.waits) == (True, True, False)
    assert first.changed == "changed by a restriction"
    assert (second.is_absent, second.old_copy, second.waits, second.changed) == (False, False, True, "")


def test_cancelling_asks_first_and_keeps_what_was_logged(evening: Evening, coach: Client) -> None:
    entries = len(tap_round(evening, evening.athlete))
    assert "1 of them is begun" in coach.get(address("assignment_cancel", evening)).content.decode()

    coach.post(address("assignment_cancel", evening))

    assert coach.get(address("assignment", evening)).status_code == 404
    assert SetEntry.objects.count() == entries
    assert not Card.objects.visible_to(evening.coach).exists()


def test_cancelling_twice_says_that_it_is_gone(evening: Evening, coach: Client) -> None:
    answers = [coach.post(address("assignment_cancel", evening)).status_code for _ in range(2)]

    assert answers == [302, 404]


def test_assistant_reads_and_is_offered_no_change(evening: Evening) -> None:
    rewrite(evening, 50)

    text = evening.cast.client_of("assistant").get(address("assignment", evening)).content.decode()

    assert "out of date" in text
    assert [word for word in ("Renew", "Cancel this session") if word in text] == []


@pytest.mark.parametrize("count", [1, 30])
def test_page_costs_eight_queries_however_many_cards(evening: Evening, coach: Client, count: int) -> None:
    evening.assignment = evening.assign(
        *(AthleteFactory.create(squad=evening.cast.squad) for _ in range(count)), in_days=1
    )

    with CaptureQueriesContext(connection) as queries:
        coach.get(address("assignment", evening))

    assert len(queries) == 8


@pytest.mark.parametrize(("role", "leads"), [("coach", True), ("assistant", True), ("clinician", False)])
def test_name_leads_to_the_card_only_for_who_may_open_it(evening: Evening, role: str, leads: bool) -> None:
    client = evening.cast.client_of(role)
    card = reverse("gym:card", kwargs={"pk": evening.card(evening.athlete).pk})

    page = client.get(address("assignment", evening)).content.decode()

    assert (f'href="{card}"' in page, evening.athlete.name in page) == (leads, True)
    assert (client.get(card).status_code == 200) == leads
