"""The owner's part of the story: the club, its squad, staff and athletes, a venue with what stands in it."""

from __future__ import annotations

import re
from io import StringIO
from pathlib import Path

from django.core.management import call_command
from playwright.sync_api import Page, expect

OWNER_PASSWORD = "mill lane hinge squat"
COACH_PASSWORD = "tarn valley lunge carry"
ATHLETES = [("Ingrid", "Moss", "2001-03-14"), ("Petra", "Vane", "2003-11-02"), ("Tessa", "Quill", "2002-06-30")]
PLATES = [("20", "6"), ("10", "6"), ("5", "6")]
DUMBBELLS = ["14", "16", "20"]


def set_up_club(page: Page, server: str, folder: Path) -> None:
    page.goto(server)
    expect(page.get_by_text("This installation has no club yet")).to_be_visible()
    secret = folder / "password"
    secret.write_text(OWNER_PASSWORD, "utf-8")
    call_command(
        "setup",
        club="Tarn Valley Handball Club",
        unit="kg",
        time_zone="Europe/London",
        owner="owner",
        email="",
        password_file=str(secret),
        stdout=StringIO(),
    )
    page.reload()
    page.get_by_role("link", name="Staff: log in").click()
    page.get_by_label("User name or e-mail").fill("owner")
    page.get_by_label("Password").fill(OWNER_PASSWORD)
    page.get_by_role("button", name="Log in").click()
    expect(page.get_by_role("heading", name="What to do first")).to_be_visible()


def add_squad_and_coach(page: Page) -> None:
    page.get_by_role("link", name="Add a squad").click()
    page.get_by_role("link", name="Add the first squad").click()
    page.get_by_label("Name").fill("Seniors")
    page.get_by_role("button", name="Add squad").click()
    page.get_by_role("navigation").get_by_role("link", name="Staff").click()
    page.get_by_role("link", name="Add someone").click()
    page.get_by_label("Name", exact=True).fill("Cato Lind")
    page.get_by_label("Seniors").check()
    page.get_by_label("User name").fill("coach")
    page.get_by_label("Password").fill(COACH_PASSWORD)
    page.get_by_role("button", name="Add").click()
    expect(page.get_by_role("row", name=re.compile("Cato Lind.*Seniors"))).to_be_visible()


def add_athletes(page: Page) -> None:
    for given, family, born_on in ATHLETES:
        page.get_by_role("navigation").get_by_role("link", name="Athletes").click()
        page.get_by_role("link", name=re.compile("New athlete|Add the first athlete")).first.click()
        page.get_by_label("Given name").fill(given)
        page.get_by_label("Family name").fill(family)
        page.get_by_label("Date of birth").fill(born_on)
        page.get_by_label("Squad").select_option("Seniors")
        page.get_by_role("button", name="Add athlete").click()
        expect(page.get_by_role("heading", level=1)).to_have_text(f"{given} {family}")


def add_venue(page: Page) -> None:
    page.get_by_role("navigation").get_by_role("link", name="Venues").click()
    page.get_by_role("link", name="Add the first venue").click()
    page.get_by_label("Name").fill("Mill Lane gym")
    page.get_by_role("button", name="Save").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Stock")
    fill_stock(page)
    page.get_by_role("button", name="Save the stock").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Mill Lane gym")


def fill_stock(page: Page) -> None:
    page.get_by_label("Bars, 1: Mass").fill("20")
    for number, (mass, pairs) in enumerate(PLATES, 1):
        page.get_by_label(f"Plates, {number}: Mass").fill(mass)
        page.get_by_label(f"Plates, {number}: Pairs").fill(pairs)
    for number, mass in enumerate(DUMBBELLS, 1):
        page.get_by_label(f"Weights to hold, {number}: Mass").fill(mass)
        page.get_by_label(f"Weights to hold, {number}: Pieces").fill("6")
    for kind in ("^rack", "^bench", "safety arms"):
        page.get_by_label(re.compile(kind, re.IGNORECASE)).first.fill("2")
