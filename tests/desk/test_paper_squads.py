"""A squad on paper only: no codes, said where it matters, and what was done is taken all the same."""

from __future__ import annotations

import pytest

from coachhub.cards.models import SetEntry
from coachhub.people.models import EnrolmentCode, Squad
from tests.cards.conftest import Evening
from tests.cast import Cast, Role
from tests.desk.evening import tap_round
from tests.factories import AthleteFactory, ConsentFactory, MembershipFactory, SquadFactory


@pytest.fixture
def on_paper(cast: Cast) -> Squad:
    Squad.objects.filter(pk=cast.squad.pk).update(is_paper_only=True)
    cast.squad.refresh_from_db()
    return cast.squad


def test_coach_says_how_the_squad_logs(cast: Cast) -> None:
    url, client = f"/squads/{cast.squad.pk}/edit/", cast.client_of(Role.COACH)
    for sent, stored in ((({"is_paper_only": "on"}), True), ({}, False)):
        client.post(url, {"name": "Seniors", "note": "", **sent})
        assert Squad.objects.get(pk=cast.squad.pk).is_paper_only is stored


def test_no_codes_are_offered_and_the_page_says_why(cast: Cast, on_paper: Squad) -> None:
    AthleteFactory.create(squad=on_paper)
    client = cast.client_of(Role.COACH)
    before = EnrolmentCode.objects.count()
    for url in (f"/squads/{on_paper.pk}/codes/", f"/athletes/{cast.athlete.pk}/code/"):
        assert "On paper only: this squad trains without phones" in client.get(url).content.decode()
        assert client.post(url, {"for": "screen"}).context["page"].slips == []
    assert EnrolmentCode.objects.count() == before
    assert "Codes for phones" not in client.get(f"/squads/{on_paper.pk}/").content.decode()


def test_athlete_who_also_trains_with_phones_gets_a_code(cast: Cast, on_paper: Squad) -> None:
    MembershipFactory.create(athlete=cast.athlete, squad=SquadFactory.create())
    answer = cast.client_of(Role.COACH).post(f"/athletes/{cast.athlete.pk}/code/", {"for": "screen"})
    assert len(answer.context["page"].slips) == 1


def test_bound_phone_goes_on_working_and_its_facts_are_taken(evening: Evening, on_paper: Squad) -> None:
    tap_round(evening, evening.athlete)
    assert SetEntry.objects.filter(athlete=evening.athlete).exists()
    assert evening.cast.client_of(Role.ATHLETE).get(f"/g/cards/{evening.card().pk}").status_code == 200


def test_today_and_the_cards_say_paper(evening: Evening, on_paper: Squad) -> None:
    client = evening.cast.client_of(Role.COACH)
    for url in ("/today/", f"/assignments/{evening.assignment.pk}/"):
        assert '<span class="state">paper</span>' in client.get(url).content.decode(), url


def test_consent_for_an_own_phone_is_not_asked_for(cast: Cast, on_paper: Squad) -> None:
    for kind in ("training", "data"):
        ConsentFactory.create(athlete=cast.athlete, kind=kind)
    client = cast.client_of(Role.COACH)
    lines = client.get("/athletes/?q=moss").context["page"].lines
    assert [line.missing for line in lines] == [()]
    assert client.get(f"/athletes/{cast.athlete.pk}/").context["page"].care.missing == 0
