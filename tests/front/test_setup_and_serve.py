from __future__ import annotations

from io import StringIO
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command

from coachhub.front.management.commands.serve import check_is_a_clubs
from coachhub.library.models import Exercise
from coachhub.people.models import Club, Staff, StaffRole, User

pytestmark = pytest.mark.django_db
PASSWORD = "mill lane hinge squat"
ANSWERS = {
    "club": "Tarn Valley Handball Club",
    "unit": "kg",
    "time_zone": "Europe/London",
    "owner": "owner",
    "email": "owner@tarnvalley.example",
}


def set_up(folder: Path, *, password: str = PASSWORD, **changed: str) -> str:
    (folder / "password").write_text(f"{password}\n", "utf-8")
    out = StringIO()
    call_command("setup", password_file=str(folder / "password"), stdout=out, **ANSWERS | changed)
    return out.getvalue()


def test_setup_makes_club_owner_and_library(tmp_path: Path) -> None:
    printed = set_up(tmp_path)

    club, owner = Club.objects.get(), Staff.objects.get()
    assert printed == "Tarn Valley Handball Club is set up. Start it with: python3 manage.py serve\n"
    assert (club.name, club.unit, club.time_zone, club.is_demo) == (
        "Tarn Valley Handball Club",
        "kg",
        "Europe/London",
        False,
    )
    assert (owner.role, owner.user.username, owner.user.email) == (StaffRole.OWNER, "owner", "owner@tarnvalley.example")
    assert owner.user.check_password(PASSWORD)
    assert Exercise.objects.count() > 100


def test_setup_again_changes_nothing(tmp_path: Path) -> None:
    set_up(tmp_path)

    printed = set_up(tmp_path, club="Another club", owner="another")

    assert printed == "The database is up to date; the club was set up before.\n"
    assert [club.name for club in Club.objects.all()] == ["Tarn Valley Handball Club"]
    assert [user.username for user in User.objects.all()] == ["owner"]


@pytest.mark.parametrize(
    ("changed", "sentence"),
    [
        (
            {"password": "too short"},
            "--password-file: This password is too short. It must contain at least 15 characters.",
        ),
        ({"password": "owner@tarnvalley"}, "--password-file: The password is too similar to the email address."),
        ({"time_zone": "Mars/Base"}, "--time-zone: Not a time zone; they look like Europe/London."),
        ({"email": "nonsense"}, "--email: Enter a valid email address."),
        ({"club": "  "}, "--club: This field cannot be blank."),
    ],
)
def test_setup_with_bad_value_makes_nothing(tmp_path: Path, changed: dict[str, str], sentence: str) -> None:
    with pytest.raises(CommandError) as caught:
        set_up(tmp_path, **changed)

    assert str(caught.value) == f"Not set up. {sentence}"
    assert (Club.objects.count(), User.objects.count()) == (0, 0)


def test_setup_with_nobody_to_ask_names_the_missing_flag() -> None:
    with pytest.raises(CommandError) as caught:
        call_command("setup", club="Tarn Valley Handball Club", unit="kg", owner="owner", email="")

    assert str(caught.value) == "Not set up. --time-zone is missing, and nobody is there to ask."


def test_serve_takes_a_club_that_is_set_up(tmp_path: Path) -> None:
    set_up(tmp_path)

    check_is_a_clubs()


def test_serve_refuses_an_empty_installation() -> None:
    with pytest.raises(CommandError, match="no club yet"):
        check_is_a_clubs()


def test_serve_refuses_the_demo_club(tmp_path: Path) -> None:
    set_up(tmp_path)
    Club.objects.update(is_demo=True)

    with pytest.raises(CommandError, match="holds the demo club"):
        check_is_a_clubs()
