"""The same person is not added twice: said beside the name, with the way to them."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from django.core.exceptions import ValidationError

from coachhub.base.clock import now
from coachhub.people.actions import add_athlete
from coachhub.people.models import Athlete, Squad
from tests.cast import Cast, Role
from tests.factories import AthleteFactory

BORN = date(2001, 5, 4)


def add(cast: Cast, role: Role, squad: Squad, given_name: str = "Dup", born_on: date = BORN) -> Any:
    data = {"given_name": given_name, "family_name": "Lí", "born_on": born_on, "unit": "kg", "level": "novice"}
    return cast.client_of(role).post("/athletes/add/", {**data, "squad": squad.pk})


def people() -> list[str]:
    return list(Athlete.objects.filter(search_key__startswith="li ").values_list("given_name", flat=True))


def test_same_athlete_sent_again_is_said_beside_the_name(cast: Cast) -> None:
    add(cast, Role.COACH, cast.squad)
    answer = add(cast, Role.COACH, cast.squad, given_name=" dup")

    twin = Athlete.objects.get(given_name="Dup")
    told = f'There is already a Dup Lí, born 4 May 2001. <a href="/athletes/{twin.pk}/">Open their page</a>'
    assert (answer.status_code, people()) == (422, ["Dup"])
    assert answer.content.decode().count(told) == 2


def test_another_birthday_or_name_is_another_person(cast: Cast) -> None:
    for name, born_on in (("Dup", BORN), ("Dup", date(2002, 5, 4)), ("Ida", BORN)):
        assert add(cast, Role.COACH, cast.squad, name, born_on).status_code == 302
    assert sorted(people()) == ["Dup", "Dup", "Ida"]


def test_coach_who_may_not_see_them_reads_no_detail(cast: Cast) -> None:
    twin = AthleteFactory.create(given_name="Dúp", family_name="Li", born_on=BORN, squad=cast.other_squad)
    answer = add(cast, Role.COACH, cast.squad)

    text = answer.content.decode()
    told = "Somebody with this name and date of birth is in the club already; ask the owner."
    assert (answer.status_code, text.count(told), people()) == (422, 2, ["Dúp"])
    assert [word for word in ("Dúp", f"/athletes/{twin.pk}/") if word in text] == []


def test_owner_brings_back_one_who_has_left(cast: Cast) -> None:
    twin = AthleteFactory.create(given_name="Dup", family_name="Li", born_on=BORN, archived_at=now())
    client, url = cast.client_of(Role.OWNER), f"/athletes/{twin.pk}/return/"

    told = f'who has left the club. <a href="{url}">Bring them back?</a>'
    assert told in add(cast, Role.OWNER, cast.squad).content.decode()
    assert "Bring Dup Li back into the club?" in client.get(url).content.decode()
    assert [client.post(url).headers["Location"] for _ in range(2)] == [f"/athletes/{twin.pk}/"] * 2
    assert Athlete.objects.get(pk=twin.pk).archived_at is None


def test_verb_refuses_the_same_person(cast: Cast) -> None:
    twin = AthleteFactory.create(given_name="Dup", family_name="Li", born_on=BORN)
    with pytest.raises(ValidationError) as caught:
        add_athlete(
            actor=cast.actor_of(Role.OWNER), squad=None, given_name="DUP", family_name="li", born_on=twin.born_on
        )
    assert (caught.value.code, people()) == ("twice", ["Dup"])
