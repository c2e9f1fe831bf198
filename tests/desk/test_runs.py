"""Giving a whole plan: its days first, then the page that says how far it is."""

from __future__ import annotations

from datetime import timedelta
from typing import Any
from uuid import uuid4

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coachhub.base.clock import today
from coachhub.cards.actions.runs import work_run
from coachhub.cards.models import AssignmentRun, Card, RunStep
from coachhub.desk.pages.runs import GivePlanPage, RunPage
from coachhub.plans.models import Session
from tests.cast import Cast
from tests.factories import SessionFactory

pytestmark = pytest.mark.django_db

HTMX = {"HX-Request": "true"}


@pytest.fixture
def coach(cast: Cast) -> Client:
    return cast.client_of("coach")


@pytest.fixture
def twelve_weeks(cast: Cast) -> None:
    """Three days a week for twelve weeks; the session of the cast is one of the three."""
    cast.plan.weeks = 12
    cast.plan.save()
    Session.objects.filter(plan=cast.plan).exclude(pk=cast.session.pk).delete()
    Session.objects.filter(pk=cast.session.pk).update(day=1, week_from=1, week_to=12)
    for day in (2, 3):
        SessionFactory.create(plan=cast.plan, day=day, week_from=1, week_to=12)


def next_monday() -> str:
    return (today() + timedelta(days=7 - today().weekday())).isoformat()


def sent(cast: Cast, **more: Any) -> dict[str, Any]:
    where = {"squad": cast.squad.pk, "venue": cast.venue.pk, "starts_on": next_monday()}
    return {"uuid": str(uuid4()), **where, "day_1": 0, "day_2": 2, "day_3": 4, **more}


def address(cast: Cast) -> str:
    return reverse("desk:plan_give", kwargs={"pk": cast.plan.pk})


def shown(coach: Client, cast: Cast, **more: Any) -> GivePlanPage:
    page: GivePlanPage = coach.get(address(cast), {"show": 1, **sent(cast, **more)}).context["page"]
    return page


def run_page(coach: Client, run: AssignmentRun) -> RunPage:
    page: RunPage = coach.get(reverse("desk:run", kwargs={"pk": run.pk})).context["page"]
    return page


@pytest.mark.usefixtures("twelve_weeks")
def test_every_session_is_shown_on_its_day_before_anything_is_written(cast: Cast, coach: Client) -> None:
    page = shown(coach, cast)
    assert (len(page.steps), page.cards) == (36, 36 * page.athletes)
    assert [step.on_date.weekday() for step in page.steps[:3]] == [0, 2, 4]
    assert (page.steps[0].on_date.isoformat(), page.steps[-1].week) == (next_monday(), 12)
    assert not AssignmentRun.objects.exists()


@pytest.mark.usefixtures("twelve_weeks")
def test_confirmed_plan_is_left_to_the_worker_and_its_page_says_how_far(cast: Cast, coach: Client) -> None:
    answer = coach.post(address(cast), sent(cast))
    run = AssignmentRun.objects.get()
    assert answer.headers["Location"] == reverse("desk:run", kwargs={"pk": run.pk})
    assert (run_page(coach, run).done, run_page(coach, run).is_waiting) == (0, True)
    assert work_run(run.pk) == 36
    assert (run_page(coach, run).done, run_page(coach, run).is_going) == (36, False)
    assert Card.objects.filter(assignment__on_date__gte=next_monday()).count() == 36 * len(run.athlete_ids)


def test_days_that_are_over_are_not_given(cast: Cast, coach: Client) -> None:
    cast.plan.weeks = 1
    cast.plan.save()
    yesterday = (today() - timedelta(days=1)).weekday()
    page = shown(coach, cast, starts_on=today().isoformat(), day_1=yesterday)
    expected = 0 if yesterday < today().weekday() else 1  # on a Monday, yesterday's weekday is the week's last
    assert len(page.steps) == expected


@pytest.mark.usefixtures("twelve_weeks")
def test_two_days_on_one_weekday_are_refused_beside_the_field(cast: Cast, coach: Client) -> None:
    answer = coach.post(address(cast), sent(cast, day_3=0))
    assert answer.status_code == 422
    assert answer.context["form"].errors == {"day_3": ["Two days of the plan fall on the same weekday."]}
    assert not AssignmentRun.objects.exists()


def test_first_week_far_away_is_asked_about(cast: Cast, coach: Client) -> None:
    answer = coach.post(address(cast), sent(cast, starts_on=(today() + timedelta(days=400)).isoformat()))
    assert answer.context["form"].errors["starts_on"] == ["A week from this one to one within a year, please."]


def test_plan_without_a_session_says_what_to_do(cast: Cast, coach: Client) -> None:
    Session.objects.filter(plan=cast.plan).update(archived_at=cast.plan.archived_at or "2026-01-01T00:00Z")
    html = coach.get(address(cast)).content.decode()
    assert "The plan has no session yet." in html


@pytest.mark.usefixtures("twelve_weeks")
def test_run_is_stopped_and_gone_on_with_from_its_page(cast: Cast, coach: Client) -> None:
    coach.post(address(cast), sent(cast))
    run = AssignmentRun.objects.get()
    coach.post(reverse("desk:run_cancel", kwargs={"pk": run.pk}))
    assert work_run(run.pk) == 0
    assert run_page(coach, run).is_open
    coach.post(reverse("desk:run_resume", kwargs={"pk": run.pk}))
    assert work_run(run.pk) == 36


@pytest.mark.usefixtures("twelve_weeks")
def test_progress_asks_again_only_while_it_goes_on(cast: Cast, coach: Client) -> None:
    coach.post(address(cast), sent(cast))
    run = AssignmentRun.objects.get()
    url = reverse("desk:run", kwargs={"pk": run.pk})
    going = coach.get(url, headers=HTMX).content.decode()
    work_run(run.pk)
    over = coach.get(url, headers=HTMX).content.decode()
    assert ("every 2s" in going, "every 2s" in over) == (True, False)
    assert not any("<h1" in html for html in (going, over))


@pytest.mark.usefixtures("twelve_weeks")
def test_run_page_costs_the_same_for_1_and_36_sessions(cast: Cast, coach: Client) -> None:
    coach.post(address(cast), sent(cast))
    run = AssignmentRun.objects.get()
    work_run(run.pk)
    costs = []
    for kept in (36, 1):
        RunStep.objects.filter(position__gte=kept).delete()
        with CaptureQueriesContext(connection) as asked:
            run_page_url = reverse("desk:run", kwargs={"pk": run.pk})
            coach.get(run_page_url)
        costs.append(len(asked))
    assert costs[0] == costs[1] <= 10
