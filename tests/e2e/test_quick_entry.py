"""Paper cards typed in, by keyboard alone."""

from __future__ import annotations

import pytest
from django.urls import reverse
from playwright.sync_api import Locator, Page, expect

from coachhub.cards.models import SetEntry
from tests.cards.conftest import Evening
from tests.cast import Cast, Role, make_cast
from tests.e2e.conftest import DESK, OpenContext
from tests.e2e.people import let_in

PASTE = """text => {
  const data = new DataTransfer();
  data.setData("text/plain", text);
  const options = {clipboardData: data, bubbles: true, cancelable: true};
  document.activeElement.dispatchEvent(new ClipboardEvent("paste", options));
}"""


@pytest.fixture
def cast(transactional_db: None) -> Cast:
    return make_cast()


@pytest.fixture
def page(evening: Evening, server: str, open_context: OpenContext) -> Page:
    page = let_in(open_context(viewport=DESK), server, evening.cast.client_of(Role.COACH)).new_page()
    page.goto(server + reverse("desk:quick_entry", kwargs={"pk": evening.assignment.pk}))
    return page


def box(page: Page, name: str, number: int, line: str) -> Locator:
    return page.get_by_label(f"{name}, round {number}, {line}")


def written() -> list[tuple[str, str, int, str, str, int | None]]:
    rows = SetEntry.objects.select_related("athlete", "line").order_by(
        "athlete__search_key", "line__label", "round", "side"
    )
    return [(r.athlete.given_name, r.line.label, r.round, r.side, r.kind, r.reps) for r in rows]


def test_card_is_typed_by_keyboard(page: Page) -> None:
    expect(box(page, "Ingrid Moss", 1, "A1")).to_be_focused()
    keys = page.keyboard
    keys.press("Enter")  # as planned
    keys.type("x4")
    keys.press("Enter")
    keys.type("-")
    keys.press("ArrowDown")
    expect(box(page, "Ingrid Moss", 4, "A1")).to_be_focused()
    keys.press("ArrowRight")
    expect(box(page, "Ingrid Moss", 4, "A2")).to_be_focused()
    keys.type("8|7")
    for _ in range(2):  # into the next exercise, then the next athlete
        keys.press("Enter")
    expect(box(page, "Ingrid Moss", 2, "B1")).to_be_focused()
    page.get_by_role("button", name="Save the sets").click()
    expect(page.get_by_text("6 sets written.")).to_be_visible()
    assert written() == [
        ("Ingrid", "A1", 1, "both", "done", 5),
        ("Ingrid", "A1", 2, "both", "done", 4),
        ("Ingrid", "A1", 3, "both", "skipped", None),
        ("Ingrid", "A2", 4, "left", "done", 8),
        ("Ingrid", "A2", 4, "right", "done", 7),
        ("Ingrid", "B1", 1, "both", "done", 5),
    ]


def test_pasted_table_fills_the_boxes_and_tells_what_did_not_fit(page: Page) -> None:
    box(page, "Petra Vane", 3, "A1").focus()
    page.evaluate(PASTE, "55x5\t8\r\n55x4\t7\r\n50x4\t6\r\n")
    expect(box(page, "Petra Vane", 3, "A1")).to_have_value("55x5")
    expect(box(page, "Petra Vane", 4, "A2")).to_have_value("7")
    expect(page.locator("#told")).to_have_text("Boxes filled: 4. No box for: 50x4, 6")
    page.get_by_role("button", name="Save the sets").click()
    expect(page.get_by_text("6 sets written.")).to_be_visible()


def test_bad_box_is_in_focus_and_the_rest_is_kept(page: Page, complaints: list[str]) -> None:
    box(page, "Ingrid Moss", 2, "A1").fill("60")
    box(page, "Petra Vane", 1, "B1").fill("50x5")
    page.get_by_role("button", name="Save the sets").click()
    wrong = box(page, "Ingrid Moss", 2, "A1")
    expect(wrong).to_be_focused()
    expect(wrong).to_have_accessible_description(
        "Is 60 the load or the reps? Write 62.5x8, or x8 for the planned load."
    )
    expect(box(page, "Petra Vane", 1, "B1")).to_have_value("50x5")
    assert [one for one in complaints if "422" not in one] == []
    complaints.clear()
    wrong.fill("60x3")
    page.get_by_role("button", name="Save the sets").click()
    expect(page.get_by_text("2 sets written.")).to_be_visible()
