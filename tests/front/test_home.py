"""The front door sends everyone to where they belong."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from coachhub.people.access import PHONE_COOKIE
from tests.cast import Cast, Role


@pytest.mark.parametrize(
    ("role", "name"),
    [
        (Role.OWNER, "desk:today"),
        (Role.COACH, "desk:today"),
        (Role.ASSISTANT, "desk:today"),
        (Role.CLINICIAN, "desk:waiting"),
        (Role.HEAD_COACH, "desk:today"),
        (Role.ATHLETE, "gym:home"),
    ],
)
def test_home_sends_to(cast: Cast, role: Role, name: str) -> None:
    client = cast.client_of(role)
    assert client.get("/").headers["Location"] == reverse(name)
    assert client.get(reverse(name)).status_code == 200


def test_bound_phone_keeps_its_cookie_for_another_400_days(cast: Cast) -> None:
    client = cast.client_of(Role.ATHLETE)
    client.get("/")
    cookie = client.cookies[PHONE_COOKIE]
    assert (cookie.value, cookie["max-age"]) == (cast.tokens[Role.ATHLETE], 400 * 24 * 3600)


def test_welcome_names_the_club_and_nobody_in_it(cast: Cast) -> None:
    page = Client().get("/").content.decode()
    assert "Tarn Valley Handball Club" in page
    people = [cast.athlete.family_name, cast.guardian.name, *(staff.name for staff in cast.staff.values())]
    assert [name for name in people if name in page] == []


@pytest.mark.django_db
def test_before_set_up_home_says_what_to_run() -> None:
    assert "python3 manage.py setup" in Client().get("/").content.decode()
