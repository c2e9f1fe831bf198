"""A squad without phones: what the pen wrote is typed in after the session, by keyboard alone."""

from __future__ import annotations

from playwright.sync_api import expect

from coachhub.cards.models import Card, SetEntry
from coachhub.people.models import Squad
from tests.e2e.evening.conftest import Desk
from tests.e2e.evening.doors import card_of, go
from tests.e2e.keyboard import Keyboard


def written_on(card: Card) -> list[tuple[str, int, str, int | None]]:
    rows = SetEntry.objects.filter(card=card).order_by("line__label", "round")
    return [(row.line.label, row.round, row.kind, row.reps) for row in rows]


def test_cards_of_a_squad_on_paper_are_typed_in(desk_of: Desk) -> None:
    page = desk_of("owner")
    go(page, "Squads")
    page.get_by_role("link", name="Under-15").first.click()
    page.get_by_role("link", name="Change").first.click()
    page.get_by_label("On paper only, no phones").check()
    page.get_by_role("button", name="Save").click()
    assert Squad.objects.get(name="Under-15").is_paper_only

    keys = Keyboard(page)
    keys.link("^Today$")
    keys.link("^Squat, press and land$")
    keys.link("^Type in cards$")
    expect(page.get_by_label("Kwesi Adomaku, round 1, A1")).to_be_focused()
    page.keyboard.press("Enter")
    page.keyboard.type("x5")
    page.keyboard.press("Enter")
    page.keyboard.type("-")
    page.keyboard.press("Control+Enter")
    expect(page.get_by_text("3 sets written.")).to_be_visible()

    assert written_on(card_of("Kwesi")) == [("A1", 1, "done", 8), ("A1", 2, "done", 5), ("A2", 1, "skipped", None)]
