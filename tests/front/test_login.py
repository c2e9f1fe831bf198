"""Staff log in by user name or e-mail; guessing is braked by account and address together."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client

from coachhub.people.actions import archive_staff
from coachhub.people.models import User
from tests.cast import Cast, Role
from tests.factories import PASSWORD

GYM, HOME = "192.0.2.1", "198.51.100.9"


def log_in(login: str, password: str = PASSWORD, *, address: str = GYM, client: Client | None = None) -> bool:
    answer = post(login, password, address=address, client=client)
    return bool(answer.status_code == 302)


def post(login: str, password: str, *, address: str = GYM, client: Client | None = None) -> Any:
    data = {"login": login, "password": password}
    return (client or Client()).post("/login/", data, REMOTE_ADDR=address)


@pytest.mark.parametrize("login", ["coach", "COACH", "coach-co@club.example", "Coach-Co@Club.example"])
def test_staff_log_in_by_name_or_address(cast: Cast, login: str) -> None:
    client = Client()
    assert log_in(login, client=client)
    assert client.get("/squads/").status_code == 200


def test_log_in_goes_where_one_wanted_to_go(cast: Cast) -> None:
    data = {"login": "coach", "password": PASSWORD}
    assert Client().post("/login/?next=/squads/", data).headers["Location"] == "/squads/"
    assert Client().post("/login/?next=https://evil.example/", data).headers["Location"] == "/"


def test_every_refusal_reads_the_same(cast: Cast) -> None:
    archive_staff(actor=cast.actor_of(Role.OWNER), staff=cast.staff[Role.HEAD_COACH])
    tries = {"coach": "wrong", "nobody": PASSWORD, "outsider": PASSWORD, "head-coach": PASSWORD}
    answers = [post(login, password) for login, password in tries.items()]
    errors = [answer.context["form"].non_field_errors() for answer in answers]
    assert [answer.status_code for answer in answers] == [422] * 4
    assert errors == [errors[0]] * 4


def test_inactive_user_is_refused(cast: Cast) -> None:
    User.objects.filter(username="coach").update(is_active=False)
    assert not log_in("coach")


def test_sixth_try_is_refused_even_with_the_right_password(cast: Cast) -> None:
    for login in ("coach", "coach-co@club.example", "Coach", "coach", "coach"):
        assert not log_in(login, "wrong")
    assert not log_in("coach")


def test_attacker_in_the_gym_locks_nobody_else_out_there(cast: Cast) -> None:
    for number in range(60):
        log_in(("coach", "nobody", f"guess{number}")[number % 3], "wrong")
    others = [staff.user.username for role, staff in cast.staff.items() if role is not Role.COACH]
    assert [name for name in others if not log_in(name)] == []


def test_attacker_in_the_gym_does_not_lock_the_coach_out_elsewhere(cast: Cast) -> None:
    for _ in range(10):
        log_in("coach", "wrong")
    assert (log_in("coach"), log_in("coach", address=HOME)) == (False, True)


def test_right_passwords_use_up_nothing(cast: Cast) -> None:
    assert [log_in("coach") for _ in range(12)] == [True] * 12


def test_log_out_ends_the_session(cast: Cast) -> None:
    client = cast.client_of(Role.COACH)
    client.post("/logout/")
    assert client.get("/squads/").status_code == 302


def test_password_change_keeps_this_session_and_ends_others(cast: Cast) -> None:
    here, elsewhere = cast.client_of(Role.COACH), cast.client_of(Role.COACH)
    new = "seven herons over the weir"
    data = {"oldpassword": PASSWORD, "password1": new, "password2": new}
    assert here.post("/password/", data).status_code == 302
    assert (here.get("/squads/").status_code, elsewhere.get("/squads/").status_code) == (200, 302)
    assert (log_in("coach"), log_in("coach", new)) == (False, True)


def test_password_change_wants_a_good_one(cast: Cast) -> None:
    data = {"oldpassword": PASSWORD, "password1": "passwordpassword", "password2": "passwordpassword"}
    answer = cast.client_of(Role.COACH).post("/password/", data)
    assert answer.status_code == 422
    assert list(answer.context["form"].errors) == ["password1"]


def test_login_without_a_place_on_the_staff_is_told_so(cast: Cast) -> None:
    """And is not sent round in circles."""
    client = cast.client_of(Role.OUTSIDER)
    assert client.get("/login/?next=/squads/").status_code == 200
    assert "You are logged in as outsider, who has no place" in client.get("/").content.decode()


@pytest.mark.parametrize("address", ["/signup/", "/accounts/signup/", "/password/reset/", "/email/"])
def test_nothing_else_of_the_account_library_is_open(cast: Cast, address: str) -> None:
    assert cast.client_of(Role.OWNER).get(address).status_code == 404
