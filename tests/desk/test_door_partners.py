"""Who shares a station: the proposal, the coach's own mind, wishes, and what the floor shows."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coachhub.cards.actions import note_attendance
from coachhub.cards.actions.stations import add_wish
from coachhub.cards.models import AttendanceStatus, BarHeight, CardLine, PairWish, StationPlace, WishKind
from coachhub.cards.queries import read_pulse
from coachhub.desk.pages.cards_floor import FloorPage, find_pulse
from coachhub.library.models import StockItem
from coachhub.people.models import Athlete
from tests.cards.conftest import Evening
from tests.factories import AthleteFactory


@pytest.fixture
def coach(evening: Evening) -> Client:
    return evening.cast.client_of("coach")


@pytest.fixture
def four(evening: Evening) -> list[Athlete]:
    """Four with a card of tomorrow: 60, 100, 62.5 and 95 kg on the bar."""
    athletes = [AthleteFactory.create(squad=evening.cast.squad) for _ in range(4)]
    evening.assignment = evening.assign(*athletes, in_days=1)
    for athlete, load in zip(athletes, ("60", "100", "62.5", "95"), strict=True):
        lines = CardLine.objects.filter(revision__card=evening.card(athlete), line_key=evening.squat.line_key)
        lines.update(load_value=Decimal(load))
    return athletes


def address(evening: Evening, name: str = "partners") -> str:
    return reverse(f"desk:{name}", kwargs={"pk": evening.assignment.pk})


def groups(client: Client, evening: Evening, query: str = "?propose=1") -> list[list[str]]:
    page = client.get(address(evening) + query).context["page"]
    found: dict[int, list[str]] = {}
    for one in page.rows:
        if one.station.initial:
            found.setdefault(one.station.initial, []).append(one.row.name)
    return [sorted(found[number]) for number in sorted(found)]


def names(*athletes: Athlete) -> list[str]:
    return sorted(athlete.name for athlete in athletes)


def take(client: Client, evening: Evening, athletes: list[Athlete], *numbers: Any, **more: Any) -> Any:
    said = {f"s-{evening.card(a).pk}": n for a, n in zip(athletes, numbers, strict=True)}
    return client.post(address(evening), {**said, **more})


def test_nearest_loads_are_proposed(evening: Evening, coach: Client, four: list[Athlete]) -> None:
    assert groups(coach, evening, "") == [names(four[0], four[2]), names(four[3], four[1])]
    assert StationPlace.objects.count() == 0


def test_who_is_absent_gets_no_station(evening: Evening, coach: Client, four: list[Athlete]) -> None:
    note_attendance(actor=evening.coach, card=evening.card(four[0]), status=AttendanceStatus.ABSENT)

    assert groups(coach, evening) == [names(four[1], four[2], four[3])]


def test_coachs_own_stations_are_kept_and_shown_on_the_floor(
    evening: Evening, coach: Client, four: list[Athlete]
) -> None:
    for _ in range(2):
        take(coach, evening, four, 1, 1, 2, 2)

    page = FloorPage.of(evening.coach, find_pulse(evening.coach, evening.assignment.pk))
    line = next(line for line in page.lines if line.row.athlete == four[0])
    assert line.station == f"Station 1, with {four[1].name}"
    assert StationPlace.objects.count() == 4
    assert groups(coach, evening, "") == [names(four[0], four[1]), names(four[2], four[3])]


def test_new_stations_end_the_204_of_the_floor(evening: Evening, coach: Client, four: list[Athlete]) -> None:
    tokens = [read_pulse(evening.coach, evening.assignment.pk)]
    take(coach, evening, four, 1, 1, 2, 2)
    tokens.append(read_pulse(evening.coach, evening.assignment.pk))

    assert tokens[0] != tokens[1]


def test_rack_holes_are_remembered_and_count(evening: Evening, coach: Client, four: list[Athlete]) -> None:
    holes = {f"h-{evening.card(a).pk}": hole for a, hole in zip(four, (9, 9, 14, 14), strict=True)}
    CardLine.objects.filter(line_key=evening.squat.line_key).update(load_value=Decimal(60))

    take(coach, evening, four, 1, 2, 1, 2, **holes)
    take(coach, evening, four, 1, 2, 1, 2, **holes)

    assert BarHeight.objects.count() == 4
    assert groups(coach, evening) == [names(four[0], four[1]), names(four[2], four[3])]


def test_station_that_cannot_be_is_refused_beside_the_field(
    evening: Evening, coach: Client, four: list[Athlete]
) -> None:
    response = take(coach, evening, four, 1, 100, "x", 2)

    fields = [f"s-{evening.card(four[place]).pk}" for place in (1, 2)]
    assert (response.status_code, sorted(response.context["page"].form.errors)) == (422, sorted(fields))
    assert StationPlace.objects.count() == 0


def test_two_kept_apart_are_not_proposed_together(evening: Evening, coach: Client, four: list[Athlete]) -> None:
    said = {"athlete": four[2].pk, "other": four[0].pk, "kind": "apart", "word": "same team at school"}
    for _ in range(2):
        coach.post(address(evening, "wish_add"), said)

    wish = PairWish.objects.get()
    assert (wish.athlete, wish.other, wish.word) == (four[0], four[2], "same team at school")
    assert [group for group in groups(coach, evening) if set(group) == set(names(four[0], four[2]))] == []

    coach.post(reverse("desk:wish_end", kwargs={"pk": evening.assignment.pk, "wish_pk": wish.pk}))
    assert groups(coach, evening)[0] == names(four[0], four[2])


def test_new_wish_of_a_pair_ends_the_old_one(evening: Evening, four: list[Athlete]) -> None:
    for kind in (WishKind.APART, WishKind.TOGETHER):
        add_wish(actor=evening.coach, athlete=four[0], other=four[1], kind=kind)

    assert [(wish.kind, wish.ended_on is None) for wish in PairWish.objects.all()] == [
        ("apart", False),
        ("together", True),
    ]


def test_wish_wants_two_people(evening: Evening, coach: Client, four: list[Athlete]) -> None:
    said = {"athlete": four[0].pk, "other": four[0].pk, "kind": "apart"}

    response = coach.post(address(evening, "wish_add"), said)

    assert response.status_code == 422
    assert response.context["page"].wish_form.errors == {"other": ["Choose two different athletes."]}


@pytest.mark.parametrize("size", [1, 30])
def test_page_costs_the_same_for_1_and_30(evening: Evening, coach: Client, size: int) -> None:
    athletes = [AthleteFactory.create(squad=evening.cast.squad) for _ in range(size)]
    evening.assignment = evening.assign(*athletes, in_days=1)

    with CaptureQueriesContext(connection) as queries:
        coach.get(address(evening))

    assert len(queries) == 10


def test_proposal_keeps_to_the_racks_that_stand_there(evening: Evening, coach: Client, four: list[Athlete]) -> None:
    more = [AthleteFactory.create(squad=evening.cast.squad) for _ in range(2)]
    evening.assignment = evening.assign(*four, *more, in_days=2)
    racks = StockItem.objects.filter(venue=evening.assignment.venue, kind="rack")
    told = []
    for count in (3, 2, 1):
        assert racks.update(count=count) == 1
        sizes = sorted(len(group) for group in groups(coach, evening))
        told.append((sizes, coach.get(address(evening)).context["page"].crowd))

    crowd = "Even in threes these are 2 groups, and the venue has 1 station: let them take turns."
    assert told == [([2, 2, 2], ""), ([3, 3], ""), ([3, 3], crowd)]
