"""Availability that says full of somebody restricted or hurting: asked, never changed by the tool."""

from __future__ import annotations

import re
from datetime import date
from typing import Any

import pytest

from coachhub.base.clock import today
from coachhub.desk.pages.cards_health import Health
from coachhub.desk.pages.cards_today import AvailabilityPage, TodayPage
from coachhub.desk.pages.waiting import WaitingPage
from coachhub.people.models import Athlete, Availability
from coachhub.people.queries import adult_born_on
from tests.cast import Cast, Role
from tests.factories import AvailabilityFactory, PainReportFactory, RedFlagFactory, RestrictionFactory, years_ago

ASKED = "availability still says full"


def places(cast: Cast) -> tuple[list[str], list[str], bool]:
    """Who is named on Today, what waits, and whether the athlete's health says it."""
    actor = cast.actor_of(Role.COACH)
    waiting = [one for group in WaitingPage.of(actor).groups for one in group.questions if one.what == ASKED]
    names = [row.name for row in TodayPage.of(actor).still_full]
    return names, [one.who[0] for one in waiting], Health.of(actor, cast.athlete).is_still_full


@pytest.mark.parametrize("stands", [RestrictionFactory, PainReportFactory, RedFlagFactory])
def test_full_is_asked_about_until_somebody_says(cast: Cast, stands: type) -> None:
    assert places(cast) == ([], [], False)
    stands.create(athlete=cast.athlete)  # type: ignore[attr-defined]
    assert places(cast) == (["Ingrid Moss"], ["Ingrid Moss"], True)
    assert Availability.objects.count() == 0

    url, sent = f"/athletes/{cast.athlete.pk}/availability/", {"from_on": today().isoformat(), "can_do": ""}
    cast.client_of(Role.COACH).post(url, sent | {"status": "full"})
    assert places(cast) == ([], [], False)


def test_what_comes_after_the_word_asks_again(cast: Cast) -> None:
    AvailabilityFactory.create(athlete=cast.athlete, status="full")
    PainReportFactory.create(athlete=cast.athlete)
    assert places(cast) == (["Ingrid Moss"], ["Ingrid Moss"], True)


def test_modified_soreness_and_no_pain_ask_nothing(cast: Cast) -> None:
    RestrictionFactory.create(athlete=cast.team_mate)
    AvailabilityFactory.create(athlete=cast.team_mate, status="modified")
    PainReportFactory.create(athlete=cast.athlete, is_sore_only=True)
    PainReportFactory.create(athlete=cast.athlete, score=0)
    assert places(cast) == ([], [], False)


def test_pages_lead_to_availability(cast: Cast) -> None:
    RestrictionFactory.create(athlete=cast.athlete)
    link, client = f'href="/athletes/{cast.athlete.pk}/availability/"', cast.client_of(Role.COACH)
    pages = ("/today/", "/waiting/", f"/athletes/{cast.athlete.pk}/health/")
    assert [link in client.get(page).content.decode() for page in pages] == [True, True, True]
    assert "still says full" not in cast.client_of(Role.ASSISTANT).get("/today/").content.decode()


@pytest.mark.parametrize(
    ("makes", "fields", "born", "expected"),
    [
        (RedFlagFactory, {}, 25, True),
        (PainReportFactory, {"score": 6}, 25, True),
        (PainReportFactory, {"score": 5}, 25, False),
        (PainReportFactory, {"score": 3}, 15, True),
        (PainReportFactory, {"score": 2}, 15, False),
        (PainReportFactory, {"score": 7, "is_sore_only": True}, 25, False),
        (RestrictionFactory, {}, 25, False),
    ],
)
def test_full_is_not_plain_while_something_waits_to_be_cleared(
    cast: Cast, makes: Any, fields: dict[str, Any], born: int, *, expected: bool
) -> None:
    Athlete.objects.filter(pk=cast.athlete.pk).update(born_on=years_ago(born))
    AvailabilityFactory.create(athlete=cast.athlete, status="full")
    makes.create(athlete=cast.athlete, **fields)
    found = {}
    for role in (Role.HEAD_COACH, Role.COACH):
        lines = AvailabilityPage.of(cast.actor_of(role), "").lines
        found[role] = next(line.state.words for line in lines if line.pk == cast.athlete.pk)
    plain = {Role.HEAD_COACH: "full", Role.COACH: "full"}
    waiting = {Role.HEAD_COACH: "full, not settled: ask the coach", Role.COACH: "full, not settled"}
    assert found == (waiting if expected else plain)


def test_squad_list_and_own_page_say_so_to_the_head_coach_without_the_reason(cast: Cast) -> None:
    RedFlagFactory.create(athlete=cast.athlete, kind="head_knock")
    client = cast.client_of(Role.HEAD_COACH)
    pages = (f"/squads/{cast.squad.pk}/", f"/athletes/{cast.athlete.pk}/")
    texts = [client.get(page).content.decode() for page in pages]
    assert [("not settled: ask the coach" in text, "knock" in text) for text in texts] == [(True, False)] * 2


def test_birthday_on_a_leap_day_makes_an_adult_a_day_later() -> None:
    assert (adult_born_on(date(2024, 2, 29)), adult_born_on(date(2026, 2, 28))) == (
        date(2006, 2, 28),
        date(2008, 2, 28),
    )


def chosen(cast: Cast) -> str:
    """What the form on availability has chosen already."""
    html = cast.client_of(Role.COACH).get(f"/athletes/{cast.athlete.pk}/availability/").content.decode()
    found = re.search(r'<option value="(\w*)" selected', html)
    return found[1] if found else ""


@pytest.mark.parametrize("stands", [RestrictionFactory, PainReportFactory, RedFlagFactory])
def test_nothing_is_chosen_beforehand_where_something_stands(cast: Cast, stands: Any) -> None:
    assert chosen(cast) == "full"
    stands.create(athlete=cast.athlete)
    assert chosen(cast) == ""
    url = f"/athletes/{cast.athlete.pk}/availability/"
    sent = cast.client_of(Role.COACH).post(url, {"status": "", "from_on": today().isoformat(), "can_do": ""})
    assert (sent.status_code, Availability.objects.count()) == (422, 0)
    assert places(cast) == (["Ingrid Moss"], ["Ingrid Moss"], True)


def test_modified_stays_chosen_where_something_stands(cast: Cast) -> None:
    AvailabilityFactory.create(athlete=cast.athlete, status="modified")
    RestrictionFactory.create(athlete=cast.athlete)
    assert chosen(cast) == "modified"
