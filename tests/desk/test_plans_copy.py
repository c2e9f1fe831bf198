"""The forms that copy a session and a plan, and the button that duplicates a block."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from coachhub.plans.models import CircuitGroup, Plan, Session
from tests.cast import Cast
from tests.factories import PlanFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def coach(cast: Cast) -> Client:
    assert cast.prescription.pk
    return cast.client_of("coach")


def address(name: str, pk: int) -> str:
    return reverse(f"desk:{name}", kwargs={"pk": pk})


def test_session_is_copied_into_another_plan(cast: Cast, coach: Client) -> None:
    plan = PlanFactory.create(name="Spring", squad=cast.squad, weeks=6)
    typed = {"plan": plan.pk, "name": "Monday again", "day": 2, "week_from": 2, "week_to": 3}

    response = coach.post(address("session_copy", cast.session.pk), typed)

    added = Session.objects.get(plan=plan)
    assert response.headers["Location"] == address("session", added.pk)
    assert (added.name, added.day, added.week_from, added.week_to) == ("Monday again", 2, 2, 3)


def test_plans_to_copy_into_are_those_the_coach_writes(cast: Cast, coach: Client) -> None:
    PlanFactory.create(name="Spring", squad=None)
    PlanFactory.create(name="Theirs", squad=cast.other_squad)

    form = coach.get(address("session_copy", cast.session.pk)).context["form"]

    labels = [label for _key, label in form.fields["plan"].choices]
    assert labels == ["---------", "Autumn strength · Seniors", "Spring · every squad"]
    assert (form["plan"].value(), form["name"].value()) == (cast.plan.pk, "Monday lower")


def test_copy_outside_the_plans_weeks_is_refused(cast: Cast, coach: Client) -> None:
    typed = {"plan": cast.plan.pk, "name": "Again", "day": 1, "week_from": 1, "week_to": 2}

    response = coach.post(address("session_copy", cast.session.pk), typed)

    assert (response.status_code, response.context["form"].errors) == (422, {"week_to": ["The plan has weeks 1 to 1."]})
    assert Session.objects.count() == 1


def test_plan_is_copied_to_a_squad(cast: Cast, coach: Client) -> None:
    response = coach.post(address("plan_copy", cast.plan.pk), {"squad": cast.squad.pk, "name": "Autumn, second"})

    added = Plan.objects.get(name="Autumn, second")
    assert (response.headers["Location"], added.copied_from) == (address("plan", added.pk), cast.plan)


def test_plan_is_not_copied_to_another_coachs_squad(cast: Cast, coach: Client) -> None:
    response = coach.post(address("plan_copy", cast.plan.pk), {"squad": cast.other_squad.pk, "name": "Theirs"})

    assert (response.status_code, list(response.context["form"].errors)) == (422, ["squad"])


def test_block_is_duplicated_while_arranging(cast: Cast, coach: Client) -> None:
    response = coach.post(address("block_duplicate", cast.prescription.group_id))

    assert response.headers["Location"] == f"{address('session', cast.session.pk)}?arrange=1"
    assert CircuitGroup.objects.count() == 2
