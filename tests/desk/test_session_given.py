"""From the session's page to giving it, and what was given from it before."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coachhub.base.clock import now, today
from coachhub.desk.pages.given import GivenPanel
from coachhub.plans.models import Session
from tests.cast import Cast
from tests.factories import AssignmentFactory, AthleteFactory, CardFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def coach(cast: Cast) -> Client:
    assert cast.prescription.pk
    return cast.client_of("coach")


def address(cast: Cast) -> str:
    return reverse("desk:session", kwargs={"pk": cast.session.pk})


def given(client: Client, cast: Cast) -> GivenPanel:
    panel: GivenPanel = client.get(address(cast)).context["page"].given
    return panel


def test_written_session_can_be_given(cast: Cast, coach: Client) -> None:
    link = f'<a class="go" href="{reverse("desk:assign")}?session={cast.session.pk}">Give to a squad</a>'

    assert link in coach.get(address(cast)).content.decode()
    assert link not in cast.client_of("assistant").get(address(cast)).content.decode()


def test_session_without_a_line_is_not_offered_to_be_given(cast: Cast, coach: Client) -> None:
    cast.prescription.delete()

    assert coach.get(address(cast)).context["page"].may_give is False


def test_cards_are_counted_with_those_that_are_older(cast: Cast, coach: Client) -> None:
    Session.objects.filter(pk=cast.session.pk).update(revision=2)
    CardFactory.create(assignment=cast.assignment, athlete=cast.athlete, session_revision=1)
    CardFactory.create(assignment=cast.assignment, athlete=cast.team_mate, session_revision=1, started_at=now())
    later = AssignmentFactory.create(session=cast.session, squad=cast.squad, on_date=today() + timedelta(days=7))
    CardFactory.create(assignment=later, athlete=cast.athlete, session_revision=2)

    panel = given(coach, cast)

    assert (panel.cards, panel.stale) == (3, 1)
    rows = [(row.assignment_id, row.to, row.cards, row.stale) for row in panel.rows]
    assert rows == [(cast.assignment.pk, "Seniors", 2, 1), (later.pk, "Seniors", 1, 0)]


def test_another_squads_and_cancelled_assignments_are_not_shown(cast: Cast, coach: Client) -> None:
    other = AssignmentFactory.create(session=cast.session, squad=cast.other_squad)
    CardFactory.create(assignment=other, athlete=cast.child)
    gone = AssignmentFactory.create(session=cast.session, squad=cast.squad, cancelled_at=now())
    CardFactory.create(assignment=gone, athlete=cast.athlete)

    assert given(coach, cast) == GivenPanel((), 0, 0, is_longer=False)
    assert [row.assignment_id for row in given(cast.client_of("owner"), cast).rows] == [other.pk]


def test_page_costs_the_same_for_1_and_30_assignments(cast: Cast, coach: Client) -> None:
    costs = []
    for number in (1, 29):
        for _ in range(number):
            assignment = AssignmentFactory.create(session=cast.session, squad=cast.squad)
            CardFactory.create(assignment=assignment, athlete=AthleteFactory.create(squad=cast.squad))
        with CaptureQueriesContext(connection) as asked:
            coach.get(address(cast))
        costs.append(len(asked))

    assert costs[0] == costs[1] <= 13
