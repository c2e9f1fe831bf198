"""The table of weeks: a cell for each line and week, errors beside their cell."""

from __future__ import annotations

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coachhub.desk.pages.weeks import WeeksPage
from coachhub.plans.models import Plan, PrescriptionWeek, Session
from tests.cast import Cast
from tests.factories import PrescriptionFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def coach(cast: Cast) -> Client:
    """The cast's one line, over weeks 2 to 4."""
    assert cast.prescription.pk
    Plan.objects.filter(pk=cast.plan.pk).update(weeks=4)
    Session.objects.filter(pk=cast.session.pk).update(week_from=2, week_to=4)
    return cast.client_of("coach")


def address(name: str, cast: Cast) -> str:
    return reverse(f"desk:{name}", kwargs={"pk": cast.session.pk})


def cell(cast: Cast, week: int) -> str:
    return f"w{cast.prescription.pk}-{week}"


def test_table_shows_what_differs_and_what_is_inherited(cast: Cast, coach: Client) -> None:
    PrescriptionWeek.objects.create(prescription=cast.prescription, week=3, sets=2, low=4)

    response = coach.get(address("session_weeks", cast))

    page: WeeksPage = response.context["page"]
    row = page.parts[0].rows[0]
    assert (page.weeks, row.label, row.name, row.dose) == ((2, 3, 4), "A1", "Romanian deadlift", "3 × 6")
    assert [(one.label, one.field.value()) for one in row.cells] == [
        ("A1 in week 2", ""),
        ("A1 in week 3", "2 x 4"),
        ("A1 in week 4", ""),
    ]
    assert 'placeholder="6"' in response.content.decode()


def test_cells_are_saved_and_the_line_says_that_it_differs(cast: Cast, coach: Client) -> None:
    response = coach.post(address("session_weeks", cast), {cell(cast, 2): "8", cell(cast, 4): "2 x 4"}, follow=True)

    values = [(row.week, row.sets, int(row.low or 0)) for row in PrescriptionWeek.objects.all()]
    assert values == [(2, None, 8), (4, 2, 4)]
    assert response.context["page"].parts[0].blocks[0].lines[0].remarks == ("other in 2 weeks",)
    assert response.context["page"].session.revision == 2


def test_mistake_stands_beside_its_cell_and_the_rest_is_kept(cast: Cast, coach: Client) -> None:
    typed = {cell(cast, 2): "9 x 8", cell(cast, 3): "4 %%", cell(cast, 4): "2 x 4"}

    response = coach.post(address("session_weeks", cast), typed)

    form = response.context["form"]
    assert (response.status_code, list(form.errors)) == (422, [cell(cast, 2), cell(cast, 3)])
    assert form.errors[cell(cast, 2)] == ["The block has 3 rounds: write up to that."]
    assert (form[cell(cast, 4)].value(), PrescriptionWeek.objects.count()) == ("2 x 4", 0)


def test_emptied_cell_inherits_again(cast: Cast, coach: Client) -> None:
    PrescriptionWeek.objects.create(prescription=cast.prescription, week=3, low=4)

    coach.post(address("session_weeks", cast), {cell(cast, 3): ""})

    assert PrescriptionWeek.objects.count() == 0


def test_week_outside_the_session_is_left_alone(cast: Cast, coach: Client) -> None:
    PrescriptionWeek.objects.create(prescription=cast.prescription, week=1, low=4)

    coach.post(address("session_weeks", cast), {cell(cast, 1): "9"})

    assert [row.low for row in PrescriptionWeek.objects.all()] == [4]


def test_session_without_a_line_says_what_to_do(cast: Cast, coach: Client) -> None:
    cast.prescription.delete()

    assert "No exercise is written yet." in coach.get(address("session_weeks", cast)).content.decode()


def test_table_costs_the_same_for_1_and_30_lines(cast: Cast, coach: Client) -> None:
    costs = []
    for number in (0, 29):
        for row in PrescriptionFactory.create_batch(number, group=cast.prescription.group):
            PrescriptionWeek.objects.create(prescription=row, week=3, low=4)
        with CaptureQueriesContext(connection) as asked:
            coach.get(address("session_weeks", cast))
        costs.append(len(asked))

    assert costs[0] == costs[1] <= 10
