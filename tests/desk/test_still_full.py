"""Availability that says full of somebody restricted or hurting: asked, never changed by the tool."""

from __future__ import annotations

import pytest

from coachhub.base.clock import today
from coachhub.desk.pages.cards_health import Health
from coachhub.desk.pages.cards_today import TodayPage
from coachhub.desk.pages.waiting import WaitingPage
from coachhub.people.models import Availability
from tests.cast import Cast, Role
from tests.factories import AvailabilityFactory, PainReportFactory, RedFlagFactory, RestrictionFactory

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
