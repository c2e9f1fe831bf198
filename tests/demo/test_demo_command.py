from __future__ import annotations

from datetime import timedelta

import pytest
from django.apps import apps
from django.core.management import CommandError, call_command

from coachhub.base.clock import today
from coachhub.cards.models import Assignment
from coachhub.demo.data import small
from coachhub.demo.generate import load_demo_club
from coachhub.people.models import Club, EnrolmentCode, User


def counts() -> dict[str, int]:
    """Rows of every table but codes, which are made anew each time: the old ones are not known in clear."""
    return {model.__name__: model._default_manager.count() for model in apps.get_models() if model is not EnrolmentCode}


def test_demo_loaded_twice_adds_nothing(demo: list[str]) -> None:
    before = counts()

    load_demo_club()

    assert counts() == before


def test_demo_loaded_twice_prints_the_same_logins_and_new_codes(demo: list[str]) -> None:
    again = load_demo_club()

    assert again[:6] == demo[:6]
    assert [a.split(",")[0] for a in again[6:]] == [
        "athlete (Seniors): Jessamy Whitlocke-Dunn",
        "athlete (Under-18): Cerys Thornwhistle",
        "athlete (Under-18): Daria Vellantico",
        "athlete (Under-15): Imke Dorrestijn-Vaal",
    ]
    assert set(again[6:]).isdisjoint(demo[6:])


def test_demo_of_yesterday_says_how_to_make_it_fresh(demo: list[str]) -> None:
    yesterday = today() - timedelta(days=1)
    Assignment.objects.filter(on_date=today()).update(on_date=yesterday)

    again = load_demo_club()

    assert again[10:] == [f"The last session here was on {yesterday}. Start with --reset for one that is today."]


def test_demo_club_is_marked_as_one(demo: list[str]) -> None:
    assert [(club.name, club.is_demo) for club in Club.objects.all()] == [("Tarn Valley Handball Club", True)]


@pytest.mark.django_db(transaction=True)
def test_reset_throws_away_what_was_there_and_tells_the_same_story() -> None:
    load_demo_club(scale=small(), reset=True)
    before = counts()
    User.objects.create_user("stranger")

    load_demo_club(scale=small(), reset=True)

    assert counts() == before
    assert User.objects.filter(username="stranger").count() == 0


@pytest.mark.django_db
def test_demo_command_keeps_off_a_clubs_database() -> None:
    with pytest.raises(CommandError, match="Start the demo with"):
        call_command("demo", no_serve=True, reset=True)
