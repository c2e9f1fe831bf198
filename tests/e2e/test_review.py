"""A remark while a dose is typed, accepted with a word and taken back, without leaving the page of the session."""

from __future__ import annotations

import pytest
from django.urls import reverse
from playwright.sync_api import Page, expect

from coachhub.plans.models import CircuitGroup
from tests.cast import Cast, Role, make_cast
from tests.e2e.conftest import DESK, OpenContext
from tests.e2e.people import let_in

REMARK = "A1 Romanian deadlift is heavy, and hinge comes round again after 1:00."


@pytest.fixture
def cast(transactional_db: None) -> Cast:
    return make_cast()


@pytest.fixture
def page(cast: Cast, server: str, open_context: OpenContext) -> Page:
    """The coach's page of a session with one hinge, a minute of rest and no load."""
    assert cast.prescription.pk
    CircuitGroup.objects.update(rest_min_s=60)
    context = let_in(open_context(viewport=DESK), server, cast.client_of(Role.COACH))
    opened = context.new_page()
    opened.goto(server + reverse("desk:session", kwargs={"pk": cast.session.pk}))
    return opened


def test_remark_comes_with_the_dose_and_goes_with_a_word(page: Page) -> None:
    page.get_by_role("link", name="Romanian deadlift").click()
    dose = page.locator("[name=notation]")
    dose.fill("5 @ 85%")
    expect(page.locator("#dose-reading")).to_contain_text(REMARK)
    dose.press("Enter")

    checks = page.locator("section[aria-labelledby=checks]")
    remark = checks.locator("li").filter(has_text=REMARK)
    remark.locator("summary").click()
    remark.get_by_label("Why that is all right").fill("One hard set, then technique")
    remark.get_by_role("button", name="Accept it").click()

    expect(checks.locator("summary").filter(has_text="1 accepted")).to_be_visible()
    expect(page.locator("#checks")).to_be_focused()
    checks.locator("summary").filter(has_text="1 accepted").click()
    expect(checks.locator(".accepted")).to_contain_text("“One hard set, then technique” – Cato Lind")
    checks.get_by_role("button", name="Remark on it again").click()
    expect(checks.locator("li").filter(has_text=REMARK).locator("summary")).to_be_visible()
