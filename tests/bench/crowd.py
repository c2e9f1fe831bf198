"""Adds a crowd to the demo's database, and prints (as JSON) what to ask of its server; a program of its own."""

from __future__ import annotations

import itertools
import json
from collections.abc import Iterator
from datetime import timedelta
from decimal import Decimal
from urllib.parse import urlencode
from uuid import uuid4

import django

django.setup()

from django.conf import settings  # noqa: E402
from django.test import Client  # noqa: E402
from django.urls import reverse  # noqa: E402

from coachhub.base.actor import Actor  # noqa: E402
from coachhub.base.clock import now, today  # noqa: E402
from coachhub.cards.actions import assign_session, log_squad_round  # noqa: E402
from coachhub.cards.models import Assignment, Card, KnownBest  # noqa: E402
from coachhub.cards.queries import load_sheets  # noqa: E402
from coachhub.cards.sheet import Sheet  # noqa: E402
from coachhub.library.models import Venue  # noqa: E402
from coachhub.people.access import PHONE_COOKIE, new_token, staff_actor  # noqa: E402
from coachhub.people.models import Athlete, Squad, StaffSquad, User  # noqa: E402
from coachhub.plans.models import Prescription, Session  # noqa: E402
from tests.bench.desk_calls import desk_calls  # noqa: E402
from tests.bench.load import Call  # noqa: E402
from tests.factories import AthleteFactory, DeviceFactory, SquadFactory  # noqa: E402

ATHLETES = 60
EVENINGS = 4
FORGERY = "x" * 32


def main() -> None:
    user = User.objects.get(username="coach")
    squad = SquadFactory.create(name="Development group")
    StaffSquad.objects.create(staff=user.staff, squad=squad)
    coach = staff_actor(user)
    assert coach is not None
    session = Session.objects.order_by("pk")[0]
    athletes = crowd(squad, session)
    phones = {athlete.pk: phone(athlete) for athlete in athletes}
    floor, *evenings = (assign(coach, session, squad, athletes, days) for days in range(EVENINGS + 1))
    half_way(coach, floor)
    other = assign(coach, Session.objects.order_by("pk")[1], squad, athletes, 0)
    card = load_sheets(Card.objects.filter(assignment=floor))[0]
    login = {"Cookie": f"{settings.SESSION_COOKIE_NAME}={logged_in(user)}"}
    print(
        json.dumps(
            {
                "hello": [Call("/bench/hello")],
                "row": [Call(f"/bench/row/{card.athlete_id}")],
                "card": [Call(reverse("gym:card", kwargs={"pk": card.card_id}), phones[card.athlete_id])],
                "floor": [Call(reverse("desk:floor", kwargs={"pk": floor.pk}), login)],
                "log": [call for evening in evenings for call in taps(evening, phones)],
                **desk_calls(user=user, coach=coach, floor=floor, other=other, login=login),
            }
        )
    )


def crowd(squad: Squad, session: Session) -> list[Athlete]:
    """Athletes of one squad, each with a known best in every lift, so that each line has a load."""
    athletes = [AthleteFactory.create(squad=squad, level="intermediate", is_rir_taught=True) for _ in range(ATHLETES)]
    rows = Prescription.objects.filter(group__segment__session=session).select_related("exercise")
    lifts = {row.exercise for row in rows}
    KnownBest.objects.bulk_create(
        KnownBest(athlete=one, exercise=lift, load_value=Decimal(80), load_unit="kg", on_date=today())
        for one, lift in itertools.product(athletes, lifts)
        if lift.load_meaning != "none"
    )
    return athletes


def phone(athlete: Athlete) -> dict[str, str]:
    token = new_token()
    DeviceFactory.create(athlete=athlete, token=token)
    return {"Cookie": f"{PHONE_COOKIE}={token}; {settings.CSRF_COOKIE_NAME}={FORGERY}", "X-CSRFToken": FORGERY}


def logged_in(user: User) -> str:
    client = Client()
    client.force_login(user)
    return client.cookies[settings.SESSION_COOKIE_NAME].value


def assign(coach: Actor, session: Session, squad: Squad, athletes: list[Athlete], days: int) -> Assignment:
    """For the evening in so many days: a squad has a session once a day."""
    venue, on_date = Venue.objects.order_by("pk")[0], today() + timedelta(days=days)
    return assign_session(
        actor=coach, session=session, squad=squad, athletes=athletes, venue=venue, on_date=on_date, week=1
    )


def half_way(coach: Actor, floor: Assignment) -> None:
    """Block A is done, block B is in its second round."""
    for label, number in (("A", 1), ("A", 2), ("A", 3), ("A", 4), ("B", 1)):
        cards = {card.pk: card for card in floor.cards.select_related("assignment", "athlete")}
        sheets = [(cards[sheet.card_id], sheet) for sheet in load_sheets(floor.cards.all())]
        log_squad_round(actor=coach, sheets=sheets, label=label, number=number, uuid=uuid4(), client_at=now())


def taps(evening: Assignment, phones: dict[int, dict[str, str]]) -> Iterator[Call]:
    """Every line of every round of every card, each as one tap of that athlete's phone; round by round."""
    sheets = load_sheets(evening.cards.all())
    for sheet in sheets:
        yield from card_taps(sheet, phones[sheet.athlete_id])


def card_taps(sheet: Sheet, headers: dict[str, str]) -> Iterator[Call]:
    for block in sheet.blocks:
        lines = [line for line in block.lines if not line.wants_load]
        for number, line in itertools.product(range(1, block.rounds_max + 1), lines):
            told = {"uuid": uuid4(), "seq": 1, "revision": 1, "group": block.key, "round": number, "line": line.key}
            yield Call(reverse("gym:log", kwargs={"pk": sheet.card_id}), headers, urlencode(told))


if __name__ == "__main__":
    main()
