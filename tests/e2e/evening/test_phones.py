"""Athletes on their own phones: one who reads kilograms, one who reads pounds."""

from __future__ import annotations

import re
from decimal import Decimal

from playwright.sync_api import Locator, Page, expect

from coachhub.base.clock import today
from coachhub.cards.models import SetEntry
from coachhub.people.models import Club, PainReport
from tests.e2e.evening.doors import card_of, enrol
from tests.e2e.steps_athlete import tap_round


def block(page: Page, letter: str) -> Locator:
    return page.get_by_role("region", name=f"Block {letter}")


def correct(page: Page, number: int, line: str, reps: str) -> None:
    block(page, "A").get_by_role("link", name=re.compile(f"Round {number} ")).tap()
    page.get_by_role("group", name=re.compile(line)).get_by_label("Done, reps").fill(reps)
    page.get_by_role("button", name="Write this round").tap()


def squats(given_name: str) -> list[tuple[int, int | None, Decimal | None, str, bool]]:
    """Round, repetitions, the load as seen with its unit, and whether it takes the place of an earlier one."""
    rows = SetEntry.objects.filter(card=card_of(given_name), line__label="A1").order_by("pk")
    return [(row.round, row.reps, row.load_value, row.load_unit, row.supersedes_uuid is not None) for row in rows]


def test_athlete_logs_her_rounds_and_puts_one_right(club: Club, server: str, phone: Page) -> None:
    enrol(phone, server, "Dagny")
    for number in (1, 2):
        tap_round(phone, "A", number)
    correct(phone, 2, "A1 Front squat", "5")
    expect(block(phone, "A").get_by_role("link", name=re.compile("Round 2 .*77.5 kg × 5"))).to_be_visible()

    assert squats("Dagny") == [
        (1, 6, Decimal("77.5"), "kg", False),
        (2, 6, Decimal("77.5"), "kg", False),
        (2, 5, Decimal("77.5"), "kg", True),
    ]

    phone.get_by_role("link", name="All my cards").tap()
    phone.get_by_role("link", name="What I have done").tap()
    phone.get_by_role("link", name=re.compile("^Front squat")).tap()
    expect(phone.locator("figure svg").first).to_be_visible()
    phone.get_by_text("The same in figures").tap()
    expect(phone.get_by_role("row").filter(has_text=f"{today():%-d %b %Y}")).to_contain_text("77.5 kg × 6")


def test_athlete_says_what_hurts_and_is_told_what_is_off(club: Club, server: str, phone: Page) -> None:
    enrol(phone, server, "Dagny")
    phone.get_by_role("link", name="Something hurts").first.tap()
    phone.locator(".scores label").filter(has_text="6").tap()
    phone.get_by_label("Where").select_option(label="knee")
    phone.get_by_label("left", exact=True).check()
    phone.get_by_role("button", name="Tell the coach").tap()
    expect(phone.get_by_text("Stop what hurts. Tell your coach now.")).to_be_visible()
    expect(phone.get_by_text("Off your card until your coach acts:")).to_be_visible()

    report = PainReport.objects.get(athlete__given_name="Dagny", on_date=today())
    assert (report.region, report.side, report.score) == ("knee", "left", 6)


def test_athlete_who_reads_pounds_reads_them_throughout(club: Club, server: str, phone: Page) -> None:
    enrol(phone, server, "Ingrid")
    loads = phone.locator(".dose, .ramps").filter(has_text="kg").all_inner_texts()
    assert [text for text in loads if "lb" not in text] == []
    assert phone.get_by_text(re.compile(r"last time [\d.]+ kg (?!\(\d)")).count() == 0
    assert any("70 kg (154 lb) × 6" in text for text in loads)

    tap_round(phone, "A", 1)
    written = block(phone, "A").get_by_role("link", name=re.compile("Round 1 "))
    expect(written).to_contain_text("70 kg × 6")
    assert squats("Ingrid") == [(1, 6, Decimal(70), "kg", False)]
