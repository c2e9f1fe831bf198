from __future__ import annotations

import pytest
from django.core.management import CommandError, call_command

from coachhub.demo.generate import load_demo_club
from coachhub.people.models import Club, User


@pytest.mark.django_db
def test_demo_club_is_marked_as_one() -> None:
    load_demo_club()

    assert [(club.name, club.is_demo) for club in Club.objects.all()] == [("Tarn Valley Handball Club", True)]


@pytest.mark.django_db(transaction=True)
def test_reset_throws_away_what_was_there() -> None:
    load_demo_club()
    User.objects.create_user("stranger")

    load_demo_club(reset=True)

    assert User.objects.filter(username="stranger").count() == 0
    assert Club.objects.count() == 1


@pytest.mark.django_db
def test_demo_command_keeps_off_a_clubs_database() -> None:
    with pytest.raises(CommandError, match="Start the demo with"):
        call_command("demo", no_serve=True, reset=True)
