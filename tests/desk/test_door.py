"""The session changed at the door: page, preview, change, undo."""

from __future__ import annotations

from typing import Any
from uuid import UUID

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coachhub.cards.models import CardRevision, DoorChange
from tests.cards.conftest import Evening
from tests.desk.evening import tap_round
from tests.factories import AthleteFactory, VenueFactory

UUID_ONE = UUID("00000000-0000-4000-8000-000000000001")


def address(evening: Evening, name: str = "door") -> str:
    return reverse(f"desk:{name}", kwargs={"pk": evening.assignment.pk})


def key(evening: Evening, label: str) -> str:
    return next(group.key for group in evening.sheet().blocks if group.label == label)


def asked(client: Client, evening: Evening, **said: Any) -> Any:
    return client.get(address(evening, "door_change"), said)


def sent(client: Client, evening: Evening, **said: Any) -> Any:
    return client.post(address(evening, "door_change"), {"uuid": UUID_ONE, **said}, follow=True)


def messages(response: Any) -> list[str]:
    return [str(message) for message in response.context["messages"]]


@pytest.fixture
def coach(evening: Evening) -> Client:
    return evening.cast.client_of("coach")


def test_page_offers_the_coachs_swaps_first(evening: Evening, coach: Client) -> None:
    page = coach.get(address(evening)).context["page"]

    block = page.blocks[0]
    assert (block.label, block.rounds, block.fewer, block.more) == ("A", 4, 3, 5)
    assert [(line.name, [name for _, name in line.swaps]) for line in block.lines] == [
        ("Front squat", ["Goblet squat"]),
        ("Split squat", []),
    ]


def test_preview_says_what_for_how_many_and_what_stays(evening: Evening, coach: Client) -> None:
    tap_round(evening, evening.athlete)

    page = asked(coach, evening, do="block", key=key(evening, "A")).context["page"]

    assert (page.title, page.changed, page.given) == ("block A left out", 1, 2)
    assert [(one.text, one.who) for one in page.effects] == [
        ("A1 Front squat is off. This block was left out at the door.", "Petra Vane"),
        ("A2 Split squat is off. This block was left out at the door.", "Petra Vane"),
    ]
    assert [(one.text, one.who) for one in page.stays] == [
        ("A1 Front squat stays: a set is written on it already", "Ingrid Moss"),
        ("A2 Split squat stays: a set is written on it already", "Ingrid Moss"),
    ]
    assert CardRevision.objects.count() == 2


def test_round_cut_and_undone(evening: Evening, coach: Client) -> None:
    said = {"do": "rounds", "key": key(evening, "A"), "rounds": 3}
    first, again = (messages(sent(coach, evening, **said)) for _ in range(2))
    assert (first, again) == (["Changed on 2 cards."], ["Changed on 2 cards."])
    assert evening.sheet().blocks[0].rounds_max == 3

    change = DoorChange.objects.get()
    for _ in range(2):
        coach.post(address(evening, "door_undo"), {"change": change.pk})

    assert (evening.sheet().blocks[0].rounds_max, evening.card().revision_number) == (4, 3)


def test_card_says_what_was_changed(evening: Evening, coach: Client) -> None:
    sent(coach, evening, do="rounds", key=key(evening, "A"), rounds=3)

    phone = evening.cast.client_of("athlete")
    text = phone.get(reverse("gym:card", kwargs={"pk": evening.card().pk})).content.decode()
    assert "Changed at the door: round 4 of block A cut." in text


def test_swap_by_name_for_one_athlete(evening: Evening, coach: Client) -> None:
    said = {"do": "swap", "key": evening.squat.line_key, "exercise": "goblet SQUAT", "card": evening.card().pk}

    sent(coach, evening, **said)

    names = [evening.line(evening.squat, a).name for a in (evening.athlete, evening.cast.team_mate)]
    assert names == ["Goblet squat", "Front squat"]


@pytest.mark.parametrize(
    ("said", "error"),
    [
        ({"do": "swap", "exercise": "Moon walk"}, "No exercise of the library is called “Moon walk”."),
        ({"do": "swap"}, "Choose the exercise that is done instead."),
        ({"do": "rounds"}, "This block is no longer in the session."),
        ({"do": "venue"}, "Choose a place."),
    ],
)
def test_what_cannot_be_done_is_said(evening: Evening, coach: Client, said: dict[str, str], error: str) -> None:
    response = asked(coach, evening, **{"key": evening.squat.line_key, **said})

    assert (response.status_code, error in response.content.decode()) == (422, True)


def test_move_is_previewed_and_made(evening: Evening, coach: Client) -> None:
    hall = VenueFactory.create(name="School hall")

    page = asked(coach, evening, do="venue", venue=hall.pk).context["page"]
    assert [one.who for one in page.effects] == ["everybody (2)"] * 2
    sent(coach, evening, do="venue", venue=hall.pk)

    assert evening.sheet().venue_name == "School hall"


def test_phone_of_who_moved_alone_says_where(evening: Evening, coach: Client) -> None:
    hall = VenueFactory.create(name="School hall")

    sent(coach, evening, do="venue", venue=hall.pk, card=evening.card().pk)

    homes = [evening.cast.client_of(role).get(reverse("gym:home")) for role in ("athlete", "team-mate")]
    assert [home.context["page"].today[0].venue for home in homes] == ["School hall", "Mill Lane gym"]


def test_card_of_another_assignment_is_not_touched_from_here(evening: Evening, coach: Client) -> None:
    other = evening.assign(evening.athlete, in_days=1).cards.get()

    answers = [coach.get(address(evening), {"card": other.pk}), coach.get(address(evening), {"card": "x"})]

    assert [answer.status_code for answer in answers] == [404, 404]


@pytest.mark.parametrize("name", ["door", "door_change"])
def test_pages_cost_the_same_for_1_and_30(evening: Evening, coach: Client, name: str) -> None:
    counts = []
    for size in (1, 30):
        athletes = [AthleteFactory.create(squad=evening.cast.squad) for _ in range(size)]
        evening.assignment = evening.assign(*athletes, in_days=size)
        group = evening.sheet(athletes[0]).blocks[1].key
        with CaptureQueriesContext(connection) as queries:
            coach.get(address(evening, name), {"do": "block", "key": group})
        counts.append(len(queries))

    assert counts[0] == counts[1]
