"""A round written for a whole squad can be taken back on its day, and nothing else goes with it."""

from __future__ import annotations

from decimal import Decimal
from uuid import UUID, uuid4

import pytest
from django.db.models import QuerySet
from django.test import Client
from django.urls import reverse

from coachhub.base.clock import now
from coachhub.cards.actions import EntryDraft, log_entries
from coachhub.cards.models import SetEntry
from coachhub.coaching.entries import counting
from coachhub.coaching.facts import Mass
from tests.cards.conftest import Evening
from tests.cast import Role
from tests.desk.evening import tap_round

SENDING = UUID("00000000-0000-4000-8000-000000000001")
OFFER = "Take it back"


def address(name: str, evening: Evening) -> str:
    return reverse(f"desk:{name}", kwargs={"pk": evening.assignment.pk})


def write(client: Client, evening: Evening, *, uuid: UUID = SENDING, number: int = 1) -> str:
    """Write a round of block B for all; returns the page that follows."""
    sent = {"uuid": uuid, "label": "B", "number": number}
    return client.post(address("floor_round", evening), sent, follow=True).content.decode()


def take_back(client: Client, evening: Evening, uuid: UUID = SENDING) -> list[str]:
    response = client.post(address("floor_take_back", evening), {"uuid": uuid}, follow=True)
    return [str(message) for message in response.context["messages"]]


def standing(evening: Evening) -> list[tuple[str, int, Decimal | None]]:
    """Who, round and load of every set that counts."""
    found = []
    for athlete in (evening.athlete, evening.cast.team_mate):
        entries: QuerySet[SetEntry] = SetEntry.objects.filter(card=evening.card(athlete))
        counted = counting(entries).values()
        found += [(athlete.given_name, one.fact.round, one.fact.load_value) for one in counted]
    return found


@pytest.fixture
def coach(evening: Evening) -> Client:
    return evening.cast.client_of("coach")


@pytest.mark.parametrize("role", [Role.OWNER, Role.COACH, Role.ASSISTANT])
def test_page_after_the_round_offers_to_take_it_back(evening: Evening, role: Role) -> None:
    client = evening.cast.client_of(role)
    assert OFFER in write(client, evening)

    assert take_back(client, evening) == ["2 sets taken back."]

    assert standing(evening) == []
    assert OFFER not in client.get(address("floor", evening)).content.decode()


def test_only_what_that_sending_wrote_goes(evening: Evening, coach: Client) -> None:
    tap_round(evening, evening.athlete, "B")
    write(coach, evening, uuid=uuid4(), number=2)
    write(coach, evening)

    assert take_back(coach, evening) == ["1 set taken back."]

    load = Decimal(60)
    assert standing(evening) == [("Ingrid", 1, load), ("Ingrid", 2, load), ("Petra", 2, load)]


def test_taken_back_twice_changes_nothing_more(evening: Evening, coach: Client) -> None:
    write(coach, evening)

    answers = [take_back(coach, evening) for _ in range(2)]

    assert answers == [["2 sets taken back."]] * 2
    assert SetEntry.objects.count() == 4


@pytest.mark.parametrize("is_beside", [False, True])
def test_what_somebody_corrected_meanwhile_stays(evening: Evening, coach: Client, is_beside: bool) -> None:
    """Whether the correction stands in the entry's place or, sent by a phone that had not seen it, beside it."""
    write(coach, evening)
    own = SetEntry.objects.get(card=evening.card())
    other = EntryDraft(
        uuid4(), own.line_key, 1, now(), seq=2, reps=4, load=Mass(Decimal(55), "kg"),
        supersedes_uuid=None if is_beside else own.uuid,
    )  # fmt: skip
    log_entries(actor=evening.phone, card=evening.card(), drafts=[other])

    assert take_back(coach, evening) == ["1 set taken back. 1 set was corrected meanwhile and stays."]

    assert standing(evening) == [("Ingrid", 1, Decimal(55))]


def test_round_taken_back_can_be_written_again(evening: Evening, coach: Client) -> None:
    write(coach, evening)
    take_back(coach, evening)

    write(coach, evening, uuid=uuid4())

    assert standing(evening) == [("Ingrid", 1, Decimal(60)), ("Petra", 1, Decimal(60))]


def test_past_day_is_not_taken_back_and_says_so(evening: Evening, coach: Client) -> None:
    evening.assignment = evening.assign(evening.athlete, evening.cast.team_mate, in_days=-1)
    assert OFFER not in write(coach, evening)

    told = "Its day is over: correct the sets one by one."
    assert take_back(coach, evening) == [told]
    assert len(standing(evening)) == 2


def test_coming_day_is_written_only_if_done_today_and_taken_back(evening: Evening, coach: Client) -> None:
    evening.assignment = evening.assign(evening.athlete, evening.cast.team_mate, in_days=1)
    sent = {"uuid": SENDING, "label": "B", "number": 1}

    refused = coach.post(address("floor_round", evening), sent)

    told = "This session is of a coming day: tick this if you do it today."
    assert (refused.status_code, refused.context["form"].errors) == (422, {"early": [told]})
    assert standing(evening) == []
    page = coach.post(address("floor_round", evening), {**sent, "early": "on"}, follow=True)
    assert OFFER in page.content.decode()
    assert take_back(coach, evening) == ["2 sets taken back."]


def test_unknown_sending_takes_nothing_back(evening: Evening, coach: Client) -> None:
    write(coach, evening)

    assert take_back(coach, evening, uuid4()) == ["There is nothing to take back."]
    assert coach.get(address("floor", evening), {"sent": "none"}).status_code == 200
    assert len(standing(evening)) == 2


def test_clinician_is_offered_nothing(evening: Evening, coach: Client) -> None:
    write(coach, evening)

    page = evening.cast.client_of(Role.CLINICIAN).get(address("floor", evening), {"sent": str(SENDING)})

    assert OFFER not in page.content.decode()


def test_another_squads_coach_takes_nothing_back(evening: Evening, coach: Client) -> None:
    write(coach, evening)

    answer = evening.cast.client_of(Role.OTHER_COACH).post(address("floor_take_back", evening), {"uuid": SENDING})

    assert (answer.status_code, len(standing(evening))) == (404, 2)
