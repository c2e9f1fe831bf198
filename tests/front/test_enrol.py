"""An athlete's way in, as the phone sees it."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from django.test import Client

from coachhub.front.cookies import LINK_COOKIE
from coachhub.people.access import PHONE_COOKIE, phone_actor
from coachhub.people.actions import NewCode, make_enrolment_code
from coachhub.people.models import Device
from tests.cast import Cast, Role
from tests.factories import AthleteFactory

GYM, HOME = "192.0.2.1", "198.51.100.9"


def code_for(cast: Cast, role: Role = Role.ATHLETE) -> NewCode:
    athlete = cast.athlete if role is Role.ATHLETE else cast.team_mate
    return make_enrolment_code(actor=cast.actor_of(Role.COACH), athlete=athlete, lifetime=timedelta(minutes=20))


def type_code(code: str, *, address: str = GYM, client: Client | None = None, born_on: str = "") -> Any:
    data = {"code": code} | ({"born_on": born_on} if born_on else {})
    return (client or Client()).post("/enrol/", data, REMOTE_ADDR=address)


def guess(times: int, address: str = GYM) -> list[int]:
    return [type_code(f"{number:08d}", address=address).status_code for number in range(times)]


def test_typed_code_binds_the_phone_by_a_cookie(cast: Cast) -> None:
    client = Client(headers={"User-Agent": "Mozilla/5.0 (Linux; Android 14)"})
    answer = type_code(code_for(cast).code.lower().replace("-", ""), client=client)
    cookie = client.cookies[PHONE_COOKIE]
    assert (answer.status_code, answer.headers["Location"]) == (302, "/")
    assert (cookie["httponly"], cookie["samesite"], cookie["max-age"]) == (True, "Lax", 400 * 24 * 3600)
    actor = phone_actor(cookie.value)
    assert actor is not None
    assert Device.objects.latest("pk").label == "Android"


def test_wrong_code_says_so_beside_the_field_and_keeps_what_was_typed(cast: Cast) -> None:
    answer = type_code("WXYZ-0000")
    assert answer.status_code == 422
    assert 'value="WXYZ-0000"' in answer.content.decode()
    assert list(answer.context["form"].errors) == ["code"]


def test_link_moves_its_secret_to_a_cookie_and_a_clean_address(cast: Cast) -> None:
    client, made = Client(), code_for(cast)
    answer = client.get(f"/e/{made.token}")
    assert (answer.headers["Location"], answer.headers["Referrer-Policy"]) == ("/enrol/phone/", "no-referrer")
    assert client.cookies[LINK_COOKIE]["httponly"]
    page = client.get("/enrol/phone/").content.decode()
    assert "Bind this phone to Ingrid?" in page
    assert (made.token in page, "Moss" in page) == (False, False)


def test_link_preview_uses_nothing_up(cast: Cast) -> None:
    made = code_for(cast)
    for _ in range(3):
        Client().get(f"/e/{made.token}", follow=True)
    client = Client()
    client.get(f"/e/{made.token}", follow=True)
    assert client.post("/enrol/phone/").headers["Location"] == "/"
    assert client.cookies[LINK_COOKIE].value == ""


def test_used_link_is_gone(cast: Cast) -> None:
    made, clients = code_for(cast), [Client(), Client()]
    for client in clients:
        client.get(f"/e/{made.token}")
    assert [client.post("/enrol/phone/").status_code for client in clients] == [302, 410]


def test_ten_wrong_codes_bring_the_birthday_question_to_that_address_only(cast: Cast) -> None:
    made = code_for(cast)
    assert guess(10) == [422] * 10
    assert type_code(made.code).status_code == 422
    assert type_code(made.code, address=HOME).status_code == 302


def test_right_code_is_not_tried_without_the_right_birthday(cast: Cast) -> None:
    made = code_for(cast)
    guess(10)
    answers = [type_code(made.code, born_on=day).status_code for day in ("1990-05-01", str(cast.athlete.born_on))]
    assert answers == [422, 302]


def test_squad_behind_the_attackers_address_still_gets_in(cast: Cast) -> None:
    athletes = AthleteFactory.create_batch(20, squad=cast.squad)
    coach = cast.actor_of(Role.COACH)
    codes = [make_enrolment_code(actor=coach, athlete=a, lifetime=timedelta(minutes=20)).code for a in athletes]
    guess(30)
    born = [str(athlete.born_on) for athlete in athletes]
    bound = [type_code(code, born_on=day).status_code for code, day in zip(codes, born, strict=True)]
    assert bound == [302] * 20


def test_right_codes_never_bring_the_brake_on(cast: Cast) -> None:
    assert [type_code(code_for(cast).code).status_code for _ in range(15)] == [302] * 15


def test_link_works_whatever_the_brake(cast: Cast) -> None:
    made, client = code_for(cast), Client(REMOTE_ADDR=GYM)
    guess(12)
    client.get(f"/e/{made.token}")
    assert client.post("/enrol/phone/").status_code == 302


@pytest.mark.parametrize("ahead", [0, 100])
def test_guesses_from_many_addresses_are_counted_together(cast: Cast, ahead: int) -> None:
    for number in range(ahead):
        type_code("00000000", address=f"203.0.113.{number}")
    assert type_code(code_for(cast).code, address=HOME).status_code == (422 if ahead else 302)


def test_phone_of_another_is_said_and_replaced(cast: Cast) -> None:
    client = cast.client_of(Role.ATHLETE)
    assert "This phone is bound to Ingrid Moss now." in client.get("/enrol/").content.decode()
    type_code(code_for(cast, Role.TEAM_MATE).code, client=client)
    assert phone_actor(cast.tokens[Role.ATHLETE]) is None
    actor = phone_actor(client.cookies[PHONE_COOKIE].value)
    assert actor is not None
    assert actor.athlete_ids == frozenset([cast.team_mate.pk])
