"""The curves above an athlete's sets, at the desk."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from coachhub.cards.models import CardLine
from coachhub.desk.pages.cards_history import ExerciseHistoryPage
from tests.cards.conftest import Evening
from tests.cast import Role
from tests.factories import SetEntryFactory, VenueFactory, days_ago


@pytest.fixture
def coach(evening: Evening) -> Client:
    return evening.cast.client_of(Role.COACH)


def squat_line(evening: Evening) -> CardLine:
    return evening.card().revisions.get().lines.get(label="A1")


def page(evening: Evening) -> ExerciseHistoryPage:
    return ExerciseHistoryPage.of(evening.coach, evening.athlete.pk, evening.squat.exercise_id, "")


def text(evening: Evening, coach: Client) -> str:
    keys = {"pk": evening.athlete.pk, "exercise_pk": evening.squat.exercise_id}
    return coach.get(reverse("desk:history_exercise", kwargs=keys)).content.decode()


def test_curve_stands_above_every_set_and_has_its_figures(evening: Evening, coach: Client) -> None:
    SetEntryFactory.create(line=squat_line(evening), load_value=60, load_unit="kg", load_kg=60, reps=5)
    html = text(evening, coach)
    assert html.index("<svg") < html.index("The same in figures") < html.index("Every set with the entry")
    assert [row.best for row in page(evening).curves[0].rows] == ["60 kg × 5"]


def test_no_set_makes_no_empty_plot(evening: Evening, coach: Client) -> None:
    html = text(evening, coach)
    assert ("<svg" in html, "No set of this exercise is logged." in html) == (False, True)


def test_machine_has_a_curve_for_each_venue(evening: Evening) -> None:
    line = squat_line(evening)
    CardLine.objects.filter(pk=line.pk).update(load_meaning="machine")
    hall = VenueFactory.create(name="School hall")
    common = {"line": line, "load_value": 40, "load_unit": "kg", "load_kg": 40}
    SetEntryFactory.create(**common, venue=evening.cast.venue, on_date=days_ago(7), round=1)
    SetEntryFactory.create(**common, venue=hall, round=2)
    assert [curve.title for curve in page(evening).curves] == [
        "Machine setting at School hall",
        "Machine setting at Mill Lane gym",
    ]


def test_skipped_set_is_not_drawn(evening: Evening) -> None:
    SetEntryFactory.create(line=squat_line(evening), kind="skipped", reps=None)
    assert page(evening).curves == ()


def test_team_mates_set_is_not_drawn(evening: Evening) -> None:
    theirs = evening.card(evening.cast.team_mate).revisions.get().lines.get(label="A1")
    SetEntryFactory.create(line=theirs, load_value=60, load_unit="kg", load_kg=60)
    assert page(evening).curves == ()
