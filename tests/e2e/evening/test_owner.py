"""The owner's evening: a new colleague, a list from the school's office, the club's own colour."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Page, expect

from coachhub.base.clock import today
from coachhub.people.models import Athlete, Club, Staff, StaffRole
from tests.e2e.conftest import DESK, OpenContext
from tests.e2e.evening.conftest import Desk
from tests.e2e.evening.doors import go, log_in

NEW_PASSWORD = "stone ferry lunge hop"
ROSTER = """First name;Surname;Birthday;Team
Vesna;Harrowgate-Lund;2012-03-09;Under-15
Odile;Brackenmoor;2011-02-30;Under-15
"""


def upload(page: Page, path: Path) -> None:
    go(page, "Athletes")
    page.get_by_role("link", name="Import", exact=True).click()
    page.get_by_label("File").set_input_files(path)
    page.get_by_role("button", name="Upload and match the columns").click()
    page.get_by_role("button", name="Show what would change").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("What would change")


def counts(page: Page) -> list[str]:
    """New, updated, unchanged, with errors."""
    return page.locator(".pairs .num").all_inner_texts()


def test_owner_takes_on_a_coach_who_then_sees_the_squads_given(
    club: Club, server: str, desk_of: Desk, open_context: OpenContext
) -> None:
    owner = desk_of("owner")
    go(owner, "Staff")
    owner.get_by_role("link", name="Add someone").click()
    owner.get_by_label("Name", exact=True).fill("Runa Eskelbeck")
    for squad in ("Under-15", "Under-18"):
        owner.get_by_label(squad).check()
    owner.get_by_label("User name").fill("runa")
    owner.get_by_label("Password").fill(NEW_PASSWORD)
    owner.get_by_role("button", name="Add").click()
    expect(owner.get_by_role("row").filter(has_text="Runa Eskelbeck")).to_contain_text("Under-15, Under-18")

    runa = Staff.objects.get(user__username="runa")
    assert (runa.role, [squad.name for squad in runa.squads.order_by("name")]) == (
        StaffRole.COACH,
        ["Under-15", "Under-18"],
    )
    page = open_context(viewport=DESK).new_page()
    log_in(page, server, "runa", NEW_PASSWORD)
    go(page, "Squads")
    expect(page.get_by_role("main").get_by_role("link", name="Seniors")).to_have_count(0)


def test_roster_row_with_a_wrong_birthday_is_left_out_then_mended(desk_of: Desk, tmp_path: Path) -> None:
    path = tmp_path / "under-15.csv"
    path.write_text(ROSTER, "utf-8")
    owner = desk_of("owner")
    upload(owner, path)
    assert counts(owner) == ["1", "0", "0", "1"]
    owner.get_by_role("button", name="Import 1 row").click()
    expect(owner.locator("#messages .ok")).to_be_visible()
    assert not Athlete.objects.filter(family_name="Brackenmoor").exists()

    path.write_text(ROSTER.replace("2011-02-30", "2012-02-29"), "utf-8")
    upload(owner, path)
    assert counts(owner) == ["1", "0", "1", "0"]
    owner.get_by_role("button", name="Import 1 row").click()
    expect(owner.locator("#messages .ok")).to_be_visible()

    joined = Athlete.objects.filter(memberships__squad__name="Under-15", memberships__started_on=today())
    assert [one.name for one in joined.order_by("search_key")] == ["Odile Brackenmoor", "Vesna Harrowgate-Lund"]


def test_colour_of_the_club_is_on_every_page(club: Club, server: str, desk_of: Desk, open_context: OpenContext) -> None:
    owner = desk_of("owner")
    go(owner, "Club")
    owner.get_by_label("plum").check()
    owner.get_by_role("button", name="Save").click()

    expect(owner.locator("html")).to_have_attribute("data-accent", "#6a2460")
    stranger = open_context(viewport=DESK).new_page()
    stranger.goto(server)
    expect(stranger.locator("html")).to_have_attribute("data-accent", "#6a2460")
    club.refresh_from_db()
    assert club.accent == "#6a2460"
