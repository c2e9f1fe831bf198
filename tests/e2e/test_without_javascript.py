"""Plain forms carry everything: a phone whose scripts did not load, a club computer that allows none."""

from __future__ import annotations

import re
from decimal import Decimal

import pytest
from playwright.sync_api import Page, expect

from coachhub.cards.models import SetEntry
from coachhub.people.models import PainReport
from coachhub.plans.models import Prescription
from tests.cards.conftest import Evening
from tests.cast import Role
from tests.e2e.conftest import DESK, PHONE, OpenContext
from tests.e2e.people import let_in

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def plain_phone(server: str, evening: Evening, open_context: OpenContext) -> Page:
    """The athlete's, on the card of today."""
    context = open_context(viewport=PHONE, java_script_enabled=False)
    page = let_in(context, server, evening.cast.client_of(Role.ATHLETE)).new_page()
    page.goto(f"{server}/g/cards/{evening.card().pk}")
    return page


@pytest.fixture
def plain_desk(server: str, evening: Evening, open_context: OpenContext) -> Page:
    """The coach's, on the session of the evening."""
    context = open_context(viewport=DESK, java_script_enabled=False)
    page = let_in(context, server, evening.cast.client_of(Role.COACH)).new_page()
    page.goto(f"{server}/plans/sessions/{evening.session.pk}/")
    return page


def written(evening: Evening) -> list[tuple[str, str, str, int | None]]:
    found = SetEntry.objects.filter(card__athlete=evening.athlete, round=1).order_by("pk")
    return [(one.exercise.name, one.side, str(one.load_value), one.reps) for one in found]


def test_round_is_logged_as_planned(plain_phone: Page, evening: Evening) -> None:
    plain_phone.get_by_role("button", name="Round 1 done as planned").click()

    expect(plain_phone.get_by_role("link", name=re.compile("^Round 1 "))).to_be_visible()
    expect(plain_phone.get_by_role("button", name="Round 2 done as planned")).to_be_visible()
    sides = [("Split squat", "left", "None", 8), ("Split squat", "right", "None", 8)]
    assert written(evening) == [("Front squat", "both", "60.00", 5), *sides]


def test_round_that_was_different_is_written(plain_phone: Page, evening: Evening) -> None:
    plain_phone.get_by_role("link", name="It was different").click()
    squat = plain_phone.get_by_role("group", name=re.compile("A1 Front squat"))
    squat.get_by_label("Weight").fill("55")
    squat.get_by_label("Done, reps").fill("4")
    plain_phone.get_by_role("button", name="Write this round").click()

    expect(plain_phone.get_by_role("link", name=re.compile("^Round 1 .*55 kg × 4 of 5"))).to_be_visible()
    assert written(evening)[0] == ("Front squat", "both", "55.00", 4)


def test_pain_is_reported_and_takes_a_line_off(plain_phone: Page, evening: Evening) -> None:
    plain_phone.get_by_role("link", name="Something hurts").first.click()
    plain_phone.get_by_role("radio", name="7", exact=True).check()
    plain_phone.get_by_label("Where?").select_option("knee")
    plain_phone.get_by_role("radio", name="left").check()
    plain_phone.get_by_role("button", name="Tell the coach").click()

    expect(plain_phone.get_by_text("Stop what hurts. Tell your coach now.")).to_be_visible()
    expect(plain_phone.get_by_role("alert").get_by_role("listitem")).to_have_text(["Split squat"])
    assert [(one.score, one.region, one.side) for one in PainReport.objects.all()] == [(7, "knee", "left")]


def test_line_is_added_to_a_block(plain_desk: Page, evening: Evening) -> None:
    plain_desk.get_by_role("link", name=re.compile("Add exercise – Block A")).click()
    plain_desk.get_by_label("Exercise", exact=True).fill("Goblet squat")
    plain_desk.get_by_label("Dose", exact=True).fill("8-10 @ 16 kg")
    plain_desk.get_by_role("button", name="Add and go on").click()

    expect(plain_desk.get_by_role("link", name="Goblet squat")).to_be_visible()
    added = Prescription.objects.get(exercise=evening.goblet)
    assert (added.group_id, added.position) == (evening.squat.group_id, 2)
    assert (added.low, added.high, added.load) == (Decimal(8), Decimal(10), Decimal(16))
