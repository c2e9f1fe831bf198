"""Once minutes are noted: an extra session for those who hardly played, and for nobody else."""

from __future__ import annotations

from datetime import date, time, timedelta
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coachhub.base.clock import today
from coachhub.cards.models import Assignment, Card
from coachhub.people.models import Athlete
from coachhub.plans.models import Session
from coachhub.season.models import GymSlot, MatchDay, MatchMinutes
from tests.cast import Cast
from tests.factories import AthleteFactory, MembershipFactory

pytestmark = pytest.mark.django_db

HTMX = {"HX-Request": "true"}
YESTERDAY = today() - timedelta(days=1)


@pytest.fixture
def coach(cast: Cast) -> Client:
    return cast.client_of("coach")


@pytest.fixture
def match(cast: Cast) -> MatchDay:
    """Yesterday: the athlete played 10 minutes, the team-mate 60; the squad has an hour today and a "Top-up"."""
    Session.objects.filter(pk=cast.session.pk).update(role="extra", name="Top-up", week_to=1)
    row = MatchDay.objects.create(squad=cast.squad, on_date=YESTERDAY, opponent="Fen Gate")
    note(row, cast.athlete, 10)
    note(row, cast.team_mate, 60)
    GymSlot.objects.create(
        squad=cast.squad, venue=cast.venue, weekday=today().weekday(), starts_at=time(11), minutes=60, from_on=YESTERDAY
    )
    return row


def note(match: MatchDay, athlete: Athlete, minutes: int) -> None:
    MatchMinutes.objects.create(match_day=match, athlete=athlete, minutes=minutes)


def url(match: MatchDay, name: str = "match_extra") -> str:
    return reverse(f"desk:{name}", kwargs={"pk": match.pk})


def sent(cast: Cast, *athletes: Athlete, on: date | None = None) -> dict[str, Any]:
    hour = f"{(on or today()).isoformat()}.{GymSlot.objects.get().pk}"
    return {"session": cast.session.pk, "hour": hour, "athletes": [row.pk for row in athletes]}


def test_match_page_says_who_hardly_played_and_leads_on(match: MatchDay, coach: Client) -> None:
    html = coach.get(url(match, "match")).content.decode()
    assert "1 athlete played under 20 minutes." in html
    assert url(match) in html


@pytest.mark.parametrize("headers", [{}, HTMX])
def test_those_who_hardly_played_are_ticked(
    match: MatchDay, cast: Cast, coach: Client, headers: dict[str, str]
) -> None:
    form = coach.get(url(match), headers=headers).context["form"]
    assert form["athletes"].value() == [cast.athlete.pk]
    assert [name for _pk, name in form["session"].field.choices] == [f"Top-up · {cast.plan.name}"]
    day = today()
    assert [words for _key, words in form["hour"].field.choices] == [
        f"{day:%a} {day.day} {day:%b}, 11:00, 60 min, {cast.venue.name}"
    ]


def test_extra_is_given_to_those_only_and_once(match: MatchDay, cast: Cast, coach: Client) -> None:
    for _ in range(2):
        assert coach.post(url(match), sent(cast, cast.athlete)).status_code == 302
    row = Assignment.objects.get()
    assert (row.on_date, row.venue, row.squad, row.week) == (today(), cast.venue, cast.squad, 1)
    assert [card.athlete for card in Card.objects.all()] == [cast.athlete]


def test_somebody_who_played_is_refused_beside_the_field(match: MatchDay, cast: Cast, coach: Client) -> None:
    answer = coach.post(url(match), sent(cast, cast.athlete, cast.team_mate))
    assert (answer.status_code, list(answer.context["form"].errors)) == (422, ["athletes"])
    assert not Assignment.objects.exists()


def test_without_an_extra_session_the_page_says_what_to_write(match: MatchDay, coach: Client) -> None:
    Session.objects.update(role="main")
    html = coach.get(url(match, "match")).content.decode()
    assert "write one in a plan of the squad as “extra for those who hardly played”" in html
    assert url(match) not in html


def test_without_an_hour_after_the_match_the_page_says_so(match: MatchDay, coach: Client) -> None:
    GymSlot.objects.all().delete()
    assert "The squad has no gym slot on the days after it" in coach.get(url(match, "match")).content.decode()


@pytest.mark.parametrize("ago", [-1, 4])
def test_match_to_come_or_long_ago_offers_nothing(match: MatchDay, coach: Client, ago: int) -> None:
    MatchDay.objects.update(on_date=today() - timedelta(days=ago))
    assert "played under" not in coach.get(url(match, "match")).content.decode()


def test_assistant_reads_minutes_and_is_offered_nothing(match: MatchDay, cast: Cast) -> None:
    html = cast.client_of("assistant").get(url(match, "match")).content.decode()
    assert "played under" not in html


def test_match_and_extra_cost_the_same_for_1_and_30_athletes(match: MatchDay, cast: Cast, coach: Client) -> None:
    costs = []
    for more in (0, 29):
        for athlete in AthleteFactory.create_batch(more):
            MembershipFactory.create(athlete=athlete, squad=cast.squad)
            note(match, athlete, 0)
        with CaptureQueriesContext(connection) as asked:
            coach.get(url(match, "match"))
            coach.get(url(match))
        costs.append(len(asked))
    assert costs[0] == costs[1]
