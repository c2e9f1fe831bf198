"""Guardians and consent on the desk: noted, shared between brothers and sisters, taken away, and what is missing."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from django.test import Client

from coachhub.base.clock import today
from coachhub.people.models import Athlete, Consent, Guardian, Guardianship
from tests.cast import Cast, Role
from tests.factories import AthleteFactory, ConsentFactory, GuardianshipFactory, days_ago

NEW = {"name": "Sorrel Reed", "relation": "mother", "phone": "+44 (0)1632 960 123", "email": "sorrel@reed.example"}


@pytest.fixture
def coach(cast: Cast) -> Client:
    """The coach of the Under-18, who has the child."""
    return cast.client_of(Role.OTHER_COACH)


@pytest.fixture
def sister(cast: Cast) -> Athlete:
    return AthleteFactory.create(given_name="Ada", family_name="Reed", is_minor=True, squad=cast.other_squad)


def add(client: Client, athlete: Athlete, **sent: object) -> Any:
    return client.post(f"/athletes/{athlete.pk}/guardians/add/", sent)


def page_of(client: Client, athlete: Athlete) -> str:
    return client.get(f"/athletes/{athlete.pk}/").content.decode()


def test_new_guardian_can_be_called_from_the_page(cast: Cast, coach: Client) -> None:
    assert add(coach, cast.child, **NEW).status_code == 302

    text = page_of(coach, cast.child)
    assert '<a href="tel:+441632960123">+44 (0)1632 960 123</a>' in text
    link = Guardianship.objects.get(guardian__name="Sorrel Reed")
    assert (link.athlete, link.relation, link.guardian.email) == (cast.child, "mother", "sorrel@reed.example")


def test_sister_shares_the_guardian(cast: Cast, coach: Client, sister: Athlete) -> None:
    add(coach, sister, known=cast.guardian.pk, relation="father")

    assert [link.guardian for link in sister.guardianships.all()] == [cast.guardian]
    page = coach.get(f"/guardians/{cast.guardian.pk}/").context["page"]
    assert [(child.name, child.relation) for child in page.children] == [("Ada Reed", "father"), ("Juno Reed", "")]


def test_guardian_sent_twice_is_noted_once(cast: Cast, coach: Client, sister: Athlete) -> None:
    for sent in (NEW, {"known": cast.guardian.pk}):
        assert [add(coach, sister, **sent).status_code for _ in range(2)] == [302, 422]
    assert sister.guardianships.count() == 2


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"name": ""}, "name"),
        ({"name": "wren REED"}, "name"),
        ({"name": "x" * 121}, "name"),
        ({"phone": "see the office"}, "phone"),
        ({"email": "not an address"}, "email"),
        ({"relation": "x" * 41}, "relation"),
        ({"known": "0"}, "known"),
    ],
)
def test_bad_guardian_is_said_beside_its_field(
    cast: Cast, coach: Client, changed: dict[str, object], field: str
) -> None:
    answer = add(coach, cast.child, **{**NEW, **changed})
    assert (answer.status_code, list(answer.context["form"].errors)) == (422, [field])
    assert Guardian.objects.count() == 1


def test_known_and_new_at_once_is_refused(cast: Cast, coach: Client, sister: Athlete) -> None:
    answer = add(coach, sister, **NEW, known=cast.guardian.pk)
    assert (answer.status_code, list(answer.context["form"].errors)) == (422, ["known"])
    assert 'value="Sorrel Reed"' in answer.content.decode()


def test_guardians_of_another_squad_are_not_offered(cast: Cast) -> None:
    client = cast.client_of(Role.COACH)
    assert "Wren Reed" not in client.get(f"/athletes/{cast.athlete.pk}/guardians/add/").content.decode()
    assert add(client, cast.athlete, known=cast.guardian.pk).status_code == 422
    assert client.get(f"/guardians/{cast.guardian.pk}/").status_code == 404


def test_new_number_is_written_once_for_all_children(cast: Cast, coach: Client, sister: Athlete) -> None:
    add(coach, sister, known=cast.guardian.pk, relation="aunt")
    url = f"/athletes/{cast.child.pk}/guardians/{cast.guardian.pk}/"
    coach.post(url, {"name": "Wren Reed", "phone": "01632 960 555", "email": "", "relation": "mother"})

    assert "tel:01632960555" in page_of(coach, sister)
    assert sorted(link.relation for link in cast.guardian.guardianships.all()) == ["aunt", "mother"]


def test_removed_guardian_stays_for_the_sister_and_goes_with_the_last_child(
    cast: Cast, coach: Client, sister: Athlete
) -> None:
    add(coach, sister, known=cast.guardian.pk)
    for athlete, left in ((cast.child, 1), (sister, 0)):
        url = f"/athletes/{athlete.pk}/guardians/{cast.guardian.pk}/remove/"
        assert coach.get(url).status_code == 200
        assert coach.post(url).status_code == 302
        assert coach.post(url).status_code == 404
        assert Guardian.objects.count() == left


def test_minor_without_guardian_is_said_on_page_and_lists(cast: Cast, coach: Client) -> None:
    addresses = (f"/athletes/{cast.child.pk}/", "/athletes/", f"/squads/{cast.other_squad.pk}/")
    words = ("and no guardian is noted", "no guardian noted", "no guardian noted")

    def said() -> list[bool]:
        return [word in coach.get(url).content.decode() for url, word in zip(addresses, words, strict=True)]

    assert said() == [False] * 3
    Guardianship.objects.all().delete()
    assert said() == [True] * 3


def test_adult_without_guardian_is_no_question(cast: Cast) -> None:
    text = page_of(cast.client_of(Role.COACH), cast.athlete)
    assert [word in text for word in ("Guardians", "no guardian")] == [False, False]


def test_consent_is_given_once_and_withdrawn_with_who_and_when(cast: Cast, coach: Client) -> None:
    url = f"/athletes/{cast.child.pk}/consents/"
    sent = {"kind": "data", "given_by": "Wren Reed", "given_on": str(days_ago(5))}
    assert [coach.post(f"{url}add/", sent).status_code for _ in range(2)] == [302, 422]
    row = Consent.objects.get()
    end = {"withdrawn_by": "Wren Reed", "withdrawn_on": str(today())}
    assert [coach.post(f"{url}{row.pk}/withdraw/", end).status_code for _ in range(2)] == [302, 302]

    row.refresh_from_db()
    assert (row.given_by, row.withdrawn_by, row.withdrawn_on) == ("Wren Reed", "Wren Reed", today())
    assert coach.post(f"{url}add/", sent).status_code == 302


@pytest.mark.parametrize(
    ("sent", "field"),
    [
        ({"kind": "photos"}, "kind"),
        ({"given_by": ""}, "given_by"),
        ({"given_on": str(today() + timedelta(days=1))}, "given_on"),
    ],
)
def test_bad_consent_is_said_beside_its_field(cast: Cast, coach: Client, sent: dict[str, str], field: str) -> None:
    good = {"kind": "data", "given_by": "Wren Reed", "given_on": str(days_ago(5))}
    answer = coach.post(f"/athletes/{cast.child.pk}/consents/add/", {**good, **sent})
    assert (answer.status_code, list(answer.context["form"].errors)) == (422, [field])


@pytest.mark.parametrize("day", [days_ago(51), today() + timedelta(days=1)])
def test_consent_is_withdrawn_on_a_day_that_can_be(cast: Cast, coach: Client, day: object) -> None:
    row = ConsentFactory.create(athlete=cast.child)
    url = f"/athletes/{cast.child.pk}/consents/{row.pk}/withdraw/"
    answer = coach.post(url, {"withdrawn_by": "Wren Reed", "withdrawn_on": str(day)})
    assert (answer.status_code, list(answer.context["form"].errors)) == (422, ["withdrawn_on"])


@pytest.mark.parametrize(
    ("kinds", "words"),
    [
        ((), "no consent on file"),
        (("training",), "no consent for keeping training data, own phone in training"),
        (("training", "data", "phone"), ""),
    ],
)
def test_list_says_which_consent_is_missing(cast: Cast, coach: Client, kinds: tuple[str, ...], words: str) -> None:
    for kind in kinds:
        ConsentFactory.create(athlete=cast.child, kind=kind)
    for url in ("/athletes/", f"/squads/{cast.other_squad.pk}/"):
        (line,) = coach.get(url).context["page"].lines
        assert line.missing == ((words,) if words else ())


def test_head_coach_is_told_nothing_of_guardians_and_consent(cast: Cast) -> None:
    guardian = GuardianshipFactory.create(athlete=cast.athlete, guardian__name="Bo Moss").guardian
    client = cast.client_of(Role.HEAD_COACH)
    assert client.get("/athletes/").context["page"].lines[0].missing == ()
    assert client.get(f"/athletes/{cast.athlete.pk}/").context["page"].care is None
    assert client.get(f"/guardians/{guardian.pk}/").status_code == 403
