"""Removing is done at once, and there is a way back."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coachhub.base.clock import now
from coachhub.desk.pages.writing import SessionPage
from coachhub.plans.models import CircuitGroup, Prescription, Removal, Segment
from tests.cast import Cast

pytestmark = pytest.mark.django_db

HTMX = {"HX-Request": "true"}
KINDS = ["line", "block", "part"]


@pytest.fixture
def coach(cast: Cast) -> Client:
    assert cast.prescription.pk
    return cast.client_of("coach")


def address(name: str, pk: int, **more: object) -> str:
    return reverse(f"desk:{name}", kwargs={"pk": pk, **more})


def remove(coach: Client, cast: Cast, kind: str, query: str = "") -> Any:
    group = cast.prescription.group
    pk = {"line": cast.prescription.pk, "block": group.pk, "part": group.segment_id}[kind]
    return coach.post(f"{address(f'{kind}_remove', pk)}{query}")


def arranged(coach: Client, cast: Cast) -> SessionPage:
    page: SessionPage = coach.get(address("session", cast.session.pk), {"arrange": "1"}).context["page"]
    return page


@pytest.mark.parametrize("kind", KINDS)
def test_removed_at_once_and_put_back_by_undo(cast: Cast, coach: Client, kind: str) -> None:
    rows = [[*model.objects.values_list("pk", flat=True)] for model in (Segment, CircuitGroup, Prescription)]

    response = remove(coach, cast, kind)

    removal = Removal.objects.get()
    page = address("session", cast.session.pk)
    assert (response.headers["Location"], Prescription.objects.count()) == (f"{page}?undo={removal.pk}", 0)
    undo = address("removal_undo", cast.session.pk, removal=removal.pk)
    assert f'action="{undo}"' in coach.get(response.headers["Location"]).content.decode()

    coach.post(undo)

    assert rows == [[*model.objects.values_list("pk", flat=True)] for model in (Segment, CircuitGroup, Prescription)]


@pytest.mark.parametrize(
    ("kind", "title"),
    [
        ("line", "A1 Romanian deadlift"),
        ("block", "Block A: Romanian deadlift"),
        ("part", "Strength: Romanian deadlift"),
    ],
)
def test_what_was_removed_is_listed_for_a_day(cast: Cast, coach: Client, kind: str, title: str) -> None:
    response = remove(coach, cast, kind, "?arrange=1")

    removal = Removal.objects.get()
    page = address("session", cast.session.pk)
    assert response.headers["Location"] == f"{page}?arrange=1&undo={removal.pk}"
    assert [one.title for one in arranged(coach, cast).removed] == [title]

    Removal.objects.update(removed_at=now() - timedelta(days=1, seconds=1))
    assert arranged(coach, cast).removed == ()


def test_line_that_is_back_is_where_the_keyboard_goes_on(cast: Cast, coach: Client) -> None:
    remove(coach, cast, "line")
    undo = address("removal_undo", cast.session.pk, removal=Removal.objects.get().pk)

    response = coach.post(f"{undo}?arrange=1")

    page = address("session", cast.session.pk)
    assert response.headers["Location"] == f"{page}?arrange=1&at=line-{cast.prescription.pk}"


def test_undo_that_comes_too_late_says_so(cast: Cast, coach: Client) -> None:
    remove(coach, cast, "line")
    Removal.objects.update(removed_at=now() - timedelta(days=1, seconds=1))
    undo = address("removal_undo", cast.session.pk, removal=Removal.objects.get().pk)

    html = coach.post(undo, follow=True).content.decode()

    assert ("It cannot be put back" in html, Prescription.objects.count()) == (True, 0)


def test_removal_of_another_session_is_not_undone_from_here(cast: Cast, coach: Client) -> None:
    remove(coach, cast, "line")
    other = type(cast.session).objects.create(plan=cast.plan, name="Other")

    coach.post(address("removal_undo", other.pk, removal=Removal.objects.get().pk))

    assert (Prescription.objects.count(), Removal.objects.count()) == (0, 1)


def test_reader_is_not_offered_an_undo(cast: Cast, coach: Client) -> None:
    url = remove(coach, cast, "line").headers["Location"]

    assert b"Undo" not in cast.client_of("assistant").get(url).content
    assert b"Undo" in coach.get(url, headers=HTMX).content


def test_arranging_costs_the_same_for_1_and_30_removals(cast: Cast, coach: Client) -> None:
    costs = []
    for number in (1, 29):
        for _ in range(number):
            Removal.objects.create(session=cast.session, title="A1", rows=[], removed_at=now())
        with CaptureQueriesContext(connection) as asked:
            arranged(coach, cast)
        costs.append(len(asked))

    assert costs[0] == costs[1] <= 13
