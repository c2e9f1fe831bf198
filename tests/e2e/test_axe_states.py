"""What pages become while they are used: refused, opened, half done. axe looks at these as well."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import timedelta

import pytest
from playwright.sync_api import Page, expect

from coachhub.base.clock import today
from coachhub.insight.models import EffortLoad
from coachhub.people.actions import make_enrolment_code
from tests.cards.conftest import Evening
from tests.cast import Role
from tests.desk.evening import tap_round
from tests.e2e.conftest import OpenContext
from tests.e2e.people import let_in
from tests.e2e.visiting import Shape, findings

pytestmark = pytest.mark.django_db(transaction=True)
SHAPES = pytest.mark.parametrize("shape", Shape, ids=lambda shape: shape.name.lower())
Reach = Callable[[Page, Evening, str], None]


def refused_form(page: Page, _evening: Evening, server: str) -> None:
    page.goto(f"{server}/athletes/add/")
    page.get_by_role("button", name="Add athlete").click()
    expect(page.locator(".err").first).to_be_visible()


def preview(page: Page, evening: Evening, server: str) -> None:
    asked = f"session={evening.session.pk}&squad={evening.cast.squad.pk}&venue={evening.cast.venue.pk}&week=1"
    page.goto(f"{server}/assign/?{asked}&on_date={today() + timedelta(days=1)}&show=1")
    expect(page.locator("#preview")).to_be_visible()


def arranging(page: Page, evening: Evening, server: str) -> None:
    page.goto(f"{server}/plans/sessions/{evening.session.pk}/?arrange=1")


def misread_dose(page: Page, evening: Evening, server: str) -> None:
    page.goto(f"{server}/plans/lines/{evening.squat.pk}/")
    page.get_by_label("Dose", exact=True).fill("5 @ many")
    page.get_by_role("button", name="Save").click()
    expect(page.locator("mark")).to_be_visible()


def picker_open(page: Page, evening: Evening, server: str) -> None:
    page.goto(f"{server}/plans/blocks/{evening.squat.group_id}/lines/add/")
    page.locator("#id_exercise").press_sequentially("squat")
    expect(page.get_by_role("option").first).to_be_visible()


def plain_fields(page: Page, evening: Evening, server: str) -> None:
    page.goto(f"{server}/plans/lines/{evening.squat.pk}/")
    page.get_by_role("button", name="Plain fields").click()
    expect(page.get_by_label("Load rule")).to_be_visible()


def floor_opened(page: Page, evening: Evening, server: str) -> None:
    page.goto(f"{server}/assignments/{evening.assignment.pk}/floor/")
    page.locator("summary").filter(has_text="Whole squad").click()
    page.locator("tbody summary").first.click()
    expect(page.get_by_role("button", name="Absent").first).to_be_visible()


def codes_made(page: Page, evening: Evening, server: str) -> None:
    page.goto(f"{server}/athletes/{evening.athlete.pk}/code/")
    page.get_by_role("button", name="Make the code").click()
    expect(page.locator(".code")).to_be_visible()


def history_of(page: Page, evening: Evening, server: str) -> None:
    page.goto(f"{server}/athletes/{evening.athlete.pk}/history/{evening.squat.exercise_id}/")


def not_found(page: Page, _evening: Evening, server: str) -> None:
    page.goto(f"{server}/athletes/99999/")


def not_allowed(page: Page, _evening: Evening, server: str) -> None:
    page.goto(f"{server}/staff/")


def begun_card(page: Page, evening: Evening, server: str) -> None:
    page.goto(f"{server}/g/cards/{evening.card().pk}")
    page.get_by_role("button", name="A1 Front squat done as planned").click()
    expect(page.locator(".tick.done")).to_have_count(1)


def refused_round(page: Page, evening: Evening, server: str) -> None:
    page.goto(f"{server}/g/cards/{evening.card().pk}/{evening.sheet().blocks[0].key}/2")
    page.get_by_role("group", name=re.compile("A1 Front squat")).get_by_label("Weight").fill("heavy")
    page.get_by_role("button", name="Write this round").click()
    expect(page.locator(".err").first).to_be_visible()


def refused_pain(page: Page, evening: Evening, server: str) -> None:
    page.goto(f"{server}/g/cards/{evening.card().pk}/hurts")
    page.locator("form#now").evaluate("form => { form.noValidate = true; }")
    page.get_by_role("button", name="Tell the coach").click()
    expect(page.locator(".err").first).to_be_visible()


def told(page: Page, evening: Evening, server: str) -> None:
    page.goto(f"{server}/g/cards/{evening.card().pk}/told/off")


def wrong_code(page: Page, _evening: Evening, server: str) -> None:
    page.goto(f"{server}/enrol/")
    page.get_by_label("Code").fill("0000-0000")
    page.get_by_role("button", name="Bind this phone").click()
    expect(page.locator(".err").first).to_be_visible()


def fresh_link(page: Page, evening: Evening, server: str) -> None:
    made = make_enrolment_code(actor=evening.coach, athlete=evening.athlete, lifetime=timedelta(minutes=20))
    page.goto(f"{server}/e/{made.token}")
    expect(page.get_by_role("button", name="Yes, bind this phone")).to_be_visible()


def stopped_card(page: Page, evening: Evening, server: str) -> None:
    page.goto(f"{server}/g/cards/{evening.card().pk}/hurts")
    page.locator(".flags button").first.click()
    expect(page.get_by_role("heading", level=1)).to_have_text("What happens now")
    page.get_by_role("link", name="Back to the card").click()
    expect(page.locator(".stopped")).to_be_visible()


def refused_end(page: Page, evening: Evening, server: str) -> None:
    page.goto(f"{server}/g/cards/{evening.card().pk}/end")
    page.locator("form[data-send]").evaluate("form => { form.noValidate = true; }")
    page.get_by_role("button", name="Send to the coach").click()
    expect(page.locator(".err").first).to_be_visible()


def answered_end(page: Page, evening: Evening, server: str) -> None:
    page.goto(f"{server}/g/cards/{evening.card().pk}/end")
    page.get_by_text("very hard").click()
    page.get_by_label("How many minutes").fill("55")
    page.get_by_label("Note to the coach").fill("Slept badly")
    page.get_by_role("button", name="Send to the coach").dblclick()
    expect(page.get_by_text("Written: 7 of 10, 55 min.")).to_be_visible()
    page.locator("summary").click()
    assert list(EffortLoad.objects.values_list("effort", "minutes")) == [(7, 55)]


def own_curve(page: Page, evening: Evening, server: str) -> None:
    tap_round(evening, evening.athlete)
    page.goto(f"{server}/g/history/{evening.squat.exercise_id}/")
    page.locator("summary").click()
    expect(page.get_by_role("img")).to_have_count(2)


def table_of_the_day(page: Page, evening: Evening, server: str) -> None:
    tap_round(evening, evening.athlete, number=2)
    page.goto(f"{server}/assignments/{evening.assignment.pk}/table/")
    page.get_by_role("link", name="Sets done").click()
    expect(page.locator("[aria-sort=descending]")).to_have_count(1)


AT_THE_DESK: list[Reach] = [
    *(refused_form, preview, arranging, misread_dose, picker_open, plain_fields),
    *(floor_opened, codes_made, history_of, table_of_the_day, not_found, not_allowed),
]
IN_THE_GYM: list[Reach] = [
    *(begun_card, refused_round, refused_end, answered_end, own_curve, refused_pain, told),
    *(wrong_code, fresh_link, stopped_card),
]


def looked_at(states: list[Reach], page: Page, evening: Evening, server: str) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for reach in states:
        reach(page, evening, server)
        if seen := findings(page):
            found[reach.__name__] = seen
    return found


def without_refusals(complaints: list[str]) -> list[str]:
    """A browser also complains of the 4xx that are asked for here."""
    return [one for one in complaints if "the server responded with a status of 4" not in one]


@SHAPES
def test_states_at_the_desk_have_no_finding(
    shape: Shape, server: str, evening: Evening, open_context: OpenContext, complaints: list[str]
) -> None:
    tap_round(evening, evening.athlete)
    page = let_in(open_context(**shape.value), server, evening.cast.client_of(Role.COACH)).new_page()

    assert looked_at(AT_THE_DESK, page, evening, server) == {}
    complaints[:] = without_refusals(complaints)


@SHAPES
def test_states_in_the_gym_have_no_finding(
    shape: Shape, server: str, evening: Evening, open_context: OpenContext, complaints: list[str]
) -> None:
    page = let_in(open_context(**shape.value), server, evening.cast.client_of(Role.ATHLETE)).new_page()

    assert looked_at(IN_THE_GYM, page, evening, server) == {}
    complaints[:] = without_refusals(complaints)
