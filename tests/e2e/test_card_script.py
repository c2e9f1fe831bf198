"""What the card's script adds to plain forms: nothing sent twice, nothing lost silently."""

from __future__ import annotations

import re
from uuid import UUID, uuid5

import pytest
from playwright.sync_api import Page, Route, expect

from coachhub.cards.actions import renew_card
from coachhub.cards.models import SetEntry
from coachhub.people.models import PainReport
from coachhub.plans.models import CircuitGroup
from tests.cards.conftest import Evening
from tests.cast import Role
from tests.e2e.people import let_in


@pytest.fixture
def card(evening: Evening, server: str, phone: Page) -> Page:
    """The athlete's phone, with the card open."""
    let_in(phone.context, server, evening.cast.client_of(Role.ATHLETE))
    phone.goto(f"{server}/g/cards/{evening.card().pk}")
    return phone


def lose_answer(route: Route) -> None:
    """The server gets it; the phone never hears so."""
    route.fetch()
    route.abort()


def test_tap_stays_on_the_page_and_has_a_uuid_of_its_own(card: Page, evening: Evening) -> None:
    printed = UUID(card.locator("#now input[name=uuid]").input_value())
    address = card.url
    card.get_by_role("button", name="Round 1 done as planned").tap()
    expect(card.get_by_role("button", name="Round 2 done as planned")).to_be_visible()
    assert card.url.split("#")[0] == address
    assert not SetEntry.objects.filter(uuid=uuid5(printed, f"{evening.squat.line_key}:1:both")).exists()


def test_round_that_could_not_be_sent_is_said_and_sent_later(
    card: Page, evening: Evening, complaints: list[str]
) -> None:
    card.context.set_offline(True)
    card.get_by_role("button", name="Round 1 done as planned").tap()
    expect(card.get_by_role("alert").filter(has_text="Not sent yet.")).to_be_visible()
    expect(card.locator("#sent")).to_have_text("not sent")
    card.context.set_offline(False)
    card.get_by_role("button", name="Round 1 done as planned").tap()
    expect(card.locator("#sent")).to_have_text("all sent")
    complaints.clear()
    assert SetEntry.objects.count() == 3


def test_pain_whose_answer_was_lost_is_said_loudly_and_stored_once(card: Page, complaints: list[str]) -> None:
    card.get_by_role("link", name="Something hurts").first.tap()
    card.get_by_role("radio", name="4").check()
    card.get_by_label("Where?").select_option("knee")
    card.get_by_role("radio", name="left").check()
    card.route("**/hurts", lose_answer, times=1)
    card.get_by_role("button", name="Tell the coach").tap()
    expect(card.get_by_role("alert").filter(has_text="NOT SENT. Tell your coach now.")).to_be_visible()
    card.get_by_role("button", name="Tell the coach").tap()
    expect(card.get_by_role("heading", level=1)).to_have_text("What happens now")
    complaints.clear()
    assert PainReport.objects.count() == 1


def test_double_tap_writes_one_round(card: Page, evening: Evening) -> None:
    card.get_by_role("button", name="Round 1 done as planned").dblclick()
    expect(card.get_by_role("button", name="Round 2 done as planned")).to_be_visible()
    card.get_by_role("button", name="Round 2 done as planned").tap()
    expect(card.get_by_role("button", name="Round 3 done as planned")).to_be_visible()
    assert set(SetEntry.objects.values_list("round", flat=True)) == {1, 2}


def test_rest_clock_runs_from_the_last_set(card: Page, evening: Evening) -> None:
    CircuitGroup.objects.update(rest_min_s=90)
    renew_card(actor=evening.coach, card=evening.card())
    card.reload()
    card.get_by_role("button", name="Round 1 done as planned").tap()
    expect(card.locator(".rest")).to_have_text(re.compile(r"rested 0:0[1-9] of 1:30"))


def test_steps_go_along_what_can_be_loaded(card: Page) -> None:
    card.get_by_role("link", name="It was different").first.tap()
    weight = card.get_by_label(re.compile("Weight, kg")).first
    card.get_by_role("button", name="heavier").first.tap()
    heavier = weight.input_value()
    card.get_by_role("button", name="lighter").first.tap()
    card.get_by_role("button", name="lighter").first.tap()
    assert (heavier, weight.input_value()) == ("62.5", "57.5")


def test_wrong_figure_keeps_the_page_and_goes_to_the_field(card: Page, complaints: list[str]) -> None:
    card.get_by_role("link", name="It was different").first.tap()
    weight = card.get_by_label(re.compile("Weight, kg")).first
    weight.fill("sixty")
    card.get_by_role("button", name="Write this round").tap()
    expect(card.get_by_text("Write a number, such as 62.5.")).to_be_visible()
    expect(weight).to_be_focused()
    expect(weight).to_have_value("sixty")
    complaints.clear()
    assert SetEntry.objects.count() == 0
