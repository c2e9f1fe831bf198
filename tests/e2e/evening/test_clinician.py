"""The clinician's evening: a knee is spared, one lift is allowed all the same, a pain is cleared."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

from playwright.sync_api import Page, expect

from coachhub.base.clock import today
from coachhub.people.models import PainReport
from tests.e2e.evening.conftest import Desk
from tests.e2e.evening.doors import go, lines_of

DIAGNOSIS = "Irritated tendon below the kneecap."


def squat_of(given_name: str) -> tuple[str, str, Decimal | None]:
    """What stands in its place on tonight's card, and the load in kilograms."""
    line = lines_of(given_name)["A1"]
    return line.name, line.status, line.load_value


def restrict_knee(page: Page, name: str) -> None:
    go(page, "Athletes")
    page.get_by_label("Name").first.fill(name)
    page.get_by_role("link", name=name, exact=False).first.click()
    page.get_by_role("link", name="Add a restriction").click()
    page.get_by_label("Restricts").select_option(label="a body region")
    page.get_by_label("Body region").select_option(label="knee")
    page.get_by_label("Can do instead").fill("Presses and pulls.")
    page.get_by_label("On whose word").fill("Dr Ona Birk")
    page.get_by_label("Look at again on").fill((today() + timedelta(days=14)).isoformat())
    page.get_by_label("Diagnosis").fill(DIAGNOSIS)
    page.locator("main form .stop-go").click()


def allow_squat(page: Page) -> None:
    page.get_by_role("link", name="Allow one exercise").click()
    page.get_by_label("Allowed all the same").select_option(label="Front squat")
    page.get_by_label("At most").fill("40")
    page.get_by_label("On whose word").fill("Dr Ona Birk")
    page.locator("main form button").last.click()


def test_restriction_with_an_exception_changes_tonights_card(desk_of: Desk) -> None:
    planned = squat_of("Łucja")
    page = desk_of("clinician")
    restrict_knee(page, "Łucja Brzezanek")
    expect(page.get_by_text(f"Diagnosis: {DIAGNOSIS}")).to_be_visible()
    spared = squat_of("Łucja")
    allow_squat(page)
    expect(page.get_by_text("Allowed all the same: Front squat to 40 kg, on the word of Dr Ona Birk")).to_be_visible()

    assert planned == ("Front squat", "planned", Decimal("47.5"))
    assert spared == ("Dumbbell glute bridge", "planned", Decimal(26))
    assert squat_of("Łucja") == ("Front squat", "planned", Decimal(40))


def test_pain_is_cleared_on_the_clinicians_word(desk_of: Desk) -> None:
    page = desk_of("clinician")
    page.get_by_role("link", name="Clear – Nerys Caradwen: left knee, 3 of 10").click()
    page.get_by_label("What was found or decided").fill("No swelling; loads go on from where they were.")
    page.locator("main form button").last.click()
    expect(page.locator("#messages .ok")).to_be_visible()

    report = PainReport.objects.get(athlete__given_name="Nerys")
    assert report.cleared_by is not None
    assert (report.cleared_by.username, report.cleared_note) == (
        "clinician",
        "No swelling; loads go on from where they were.",
    )
    go(page, "Waiting")
    expect(page.get_by_text("Nerys Caradwen: left knee, 3 of 10")).to_have_count(0)
