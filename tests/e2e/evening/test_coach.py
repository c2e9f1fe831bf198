"""The coach's evening: a small session written and given, changes at the door, the floor, and the table after it."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

from openpyxl import load_workbook
from playwright.sync_api import Page, expect

from coachhub.base.clock import today
from coachhub.cards.models import Assignment, AttendanceStatus, Card
from coachhub.people.models import Athlete
from tests.e2e.evening.conftest import Desk
from tests.e2e.evening.doors import card_of, enrol, lines_of, on_floor, open_floor
from tests.e2e.keyboard import Keyboard
from tests.e2e.steps_athlete import tap_round
from tests.e2e.steps_coach import write_block

NAME = "Before the away match"


def start_session(page: Page) -> None:
    keys = Keyboard(page)
    keys.link("^Plans$")
    keys.link("^Add a plan$")
    keys.write("Name", "Match weeks")
    keys.choose("Squad (optional)", "Seniors")
    keys.button("Save")
    keys.link("Add.*session")
    keys.write("Name", NAME)
    keys.button("Save")
    expect(page.get_by_role("heading", level=1)).to_have_text(NAME)


def give_session(page: Page) -> None:
    keys = Keyboard(page)
    keys.link("^Today$")
    keys.link("^Give a session$")
    keys.choose("Session", f"Match weeks: {NAME}")
    keys.choose("Squad", "Seniors")
    keys.choose("Venue", "Mill Lane gym")
    keys.field("Date").fill((today() + timedelta(days=1)).isoformat())
    keys.button("Show who gets what")
    expect(page.get_by_role("heading", name=NAME)).to_be_visible()
    keys.button("Give it to those ticked")
    expect(page.get_by_text("0 of 18 have begun")).to_be_visible()


def test_session_is_written_by_keyboard_and_given(desk_of: Desk) -> None:
    page = desk_of("coach")
    start_session(page)
    write_block(page, "A", "2", "1:30", [("Goblet squat", "8 @ 16 kg"), ("Press-up", "8")])
    give_session(page)

    given = Assignment.objects.get(session__name=NAME)
    assert (given.on_date, given.cards.count()) == (today() + timedelta(days=1), 18)
    card = given.cards.get(athlete__given_name="Dagny")
    lines = card.revisions.get().lines.order_by("position")
    assert [(line.label, line.name, line.load_value) for line in lines] == [
        ("A1", "Goblet squat", 16),
        ("A2", "Press-up", None),
    ]


def test_round_is_cut_at_the_door_and_brought_back(desk_of: Desk) -> None:
    page = desk_of("coach")
    open_floor(page, "Seniors")
    page.get_by_role("link", name="Change the session").click()
    page.get_by_role("link", name="Cut round 4 A").click()
    page.get_by_role("button", name="Change it").click()
    expect(page.get_by_text("Changed on 16 cards.")).to_be_visible()
    open_floor(page, "Seniors")
    expect(on_floor(page, "Dagny Ørsholt")).to_contain_text("0/3")
    expect(on_floor(page, "Solveig Marrenquist")).to_contain_text("4/4")
    assert lines_of("Dagny")["A1"].sets == 3

    page.get_by_role("link", name="Change the session").click()
    page.get_by_role("button", name="Undo").click()
    expect(page.locator("#messages .ok")).to_be_visible()
    open_floor(page, "Seniors")
    expect(on_floor(page, "Dagny Ørsholt")).to_contain_text("0/4")
    assert lines_of("Dagny")["A1"].sets == 4


def test_one_comes_late_and_a_guest_joins(desk_of: Desk) -> None:
    page = desk_of("coach")
    open_floor(page, "Seniors")
    row = on_floor(page, "Dagny Ørsholt")
    row.locator("summary").click()
    row.get_by_role("link", name="Late").click()
    page.get_by_label("Minutes left of the slot").fill("40")
    page.get_by_role("button", name="See what fits").click()
    page.get_by_role("button", name="Note it").click()
    expect(on_floor(page, "Dagny Ørsholt")).to_contain_text("late, 40 min")

    page.get_by_role("link", name="A guest").click()
    page.get_by_label("Given name").fill("Runa")
    page.get_by_label("Family name").fill("Eskelbeck")
    page.get_by_label("Date of birth").fill("1999-04-02")
    page.get_by_role("button", name="Give a card").click()
    expect(on_floor(page, "Runa Eskelbeck")).to_contain_text("0/4")

    assert card_of("Dagny").attendance.latest("pk").status == AttendanceStatus.LATE
    assert Card.objects.get(athlete=Athlete.objects.get(family_name="Eskelbeck")) == card_of("Runa")


def test_floor_shows_a_round_as_it_is_tapped(desk_of: Desk, server: str, phone: Page) -> None:
    page = desk_of("coach")
    open_floor(page, "Seniors")
    page.evaluate("window.isTheSamePage = true")
    enrol(phone, server, "Dagny")
    tap_round(phone, "A", 1)

    expect(on_floor(page, "Dagny Ørsholt")).to_contain_text("1/4")
    assert page.evaluate("window.isTheSamePage") is True


def end_session(phone: Page) -> None:
    phone.get_by_role("link", name="I am done").tap()
    phone.locator(".efforts label").filter(has_text="7").tap()
    phone.get_by_label("Minutes").fill("55")
    phone.get_by_label("Note").fill("Squats felt light.")
    phone.get_by_role("button", name="Send to the coach").tap()
    expect(phone.get_by_text("Written: ")).to_be_visible()


def test_session_ends_in_the_squads_table_and_in_a_spreadsheet(
    desk_of: Desk, server: str, phone: Page, tmp_path: Path
) -> None:
    enrol(phone, server, "Dagny")
    tap_round(phone, "A", 1)
    end_session(phone)
    page = desk_of("coach")
    expect(page.get_by_text("Squats felt light.")).to_be_visible()
    page.get_by_role("row").filter(has_text="Seniors").get_by_role("link", name="Squat and pull").first.click()
    page.get_by_role("link", name="Table").click()
    cells = page.get_by_role("row").filter(has_text="Dagny Ørsholt").get_by_role("cell")
    expect(cells.nth(0)).to_have_text("3 of 24")
    expect(cells.nth(1)).to_have_text("7")
    expect(cells.nth(2)).to_have_text("55")

    with page.expect_download() as download:
        page.get_by_role("link", name="Spreadsheet (XLSX)").click()
    path = tmp_path / "table.xlsx"
    download.value.save_as(path)
    rows = list(load_workbook(path).worksheets[0].iter_rows(values_only=True))
    mine = [row for row in rows if row[0] == "Dagny Ørsholt"]
    assert mine[0] == (
        "Dagny Ørsholt", "A1", "Front squat", "4 × 77.5 kg × 6", 4, 1, "77.5 kg × 6", "77.5 kg × 6", 7, 55,
    )  # fmt: skip
