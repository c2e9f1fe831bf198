"""What an athlete finds of themselves on their own phone."""

from __future__ import annotations

import re
from decimal import Decimal

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coachhub.cards.models import CardLine
from tests.cast import Role
from tests.factories import SetEntryFactory, days_ago
from tests.gym.browser import Page
from tests.gym.conftest import Evening

ROUND = "Round 1 done as planned"


def curve(evening: Evening, role: Role = Role.ATHLETE) -> Page:
    exercise = evening.lines["Front squat"].exercise_id
    return evening.browser(role).open(reverse("gym:history_exercise", args=[exercise]))


def squat_line(evening: Evening) -> CardLine:
    return CardLine.objects.get(revision__card=evening.card(), line_key=evening.lines["Front squat"].line_key)


def lift(evening: Evening, days: int, load: str, unit: str = "kg") -> None:
    """One set more, in a round of its own."""
    value = Decimal(load)
    kg = value if unit == "kg" else value * Decimal("0.45359237")
    line = squat_line(evening)
    SetEntryFactory.create(
        line=line,
        round=line.entries.count() + 1,
        on_date=days_ago(days),
        load_value=value,
        load_unit=unit,
        load_kg=round(kg, 4),
        reps=5,
    )


def test_exercises_done_lead_to_their_curves(evening: Evening) -> None:
    evening.do(ROUND)
    page = evening.browser().open(reverse("gym:history"))
    exercise = evening.lines["Front squat"].exercise_id
    assert ("Front squat 1 set" in page.words, reverse("gym:history_exercise", args=[exercise]) in page.html) == (
        True,
        True,
    )


def test_nothing_done_says_what_will_be_here(evening: Evening) -> None:
    assert "When you have written a set on a card" in evening.browser().open(reverse("gym:history")).words
    assert "No set of this exercise in the last twelve months." in curve(evening).words


def test_curve_has_a_dot_for_each_set_and_its_figures_in_a_table(evening: Evening) -> None:
    for days, load in ((21, "55"), (14, "57.5"), (14, "57.5"), (7, "60")):
        lift(evening, days, load)
    page = curve(evening)
    sets, _volume = re.findall(r"<figure>.*?</figure>", page.html, re.DOTALL)
    assert (sets.count("<circle"), sets.count("<path")) == (4, 1)
    assert "2 × 57.5 kg × 5 57.5 kg × 5 575 kg" in page.words


def test_pounds_are_drawn_in_the_athletes_unit_and_told_as_they_were_seen(evening: Evening) -> None:
    lift(evening, 7, "135", "lb")
    page = curve(evening)
    assert ("Each set, in kg" in page.words, "135 lb × 5 135 lb × 5 306 kg" in page.words) == (True, True)
    evening.describe(unit="lb")
    assert "135 lb × 5 135 lb × 5 675 lb" in curve(evening).words


def test_sets_older_than_a_year_are_not_drawn(evening: Evening) -> None:
    lift(evening, 400, "55")
    assert "No set of this exercise in the last twelve months." in curve(evening).words


def test_corrected_set_is_drawn_once(evening: Evening) -> None:
    lift(evening, 7, "600")
    first = evening.facts[0]
    SetEntryFactory.create(
        line=first.line, supersedes_uuid=first.uuid, on_date=first.on_date, load_value=60, load_unit="kg", load_kg=60
    )
    page = curve(evening)
    assert ("60 kg × 6" in page.words, "600 kg" in page.words) == (True, False)


def test_nobody_elses_sets_are_in_it(evening: Evening) -> None:
    lift(evening, 7, "60")
    page = curve(evening, Role.TEAM_MATE)
    assert ("60 kg" in page.words, "No set of this exercise" in page.words) == (False, True)


def test_unknown_exercise_is_not_found(evening: Evening) -> None:
    assert evening.browser().open(reverse("gym:history_exercise", args=[0])).status == 404


@pytest.mark.parametrize("count", [1, 30])
def test_curve_costs_as_much_for_thirty_days_as_for_one(evening: Evening, count: int) -> None:
    for day in range(count):
        lift(evening, day, "60")
    with CaptureQueriesContext(connection) as queries:
        curve(evening)
    assert len(queries) == 5
