"""The coach's part of the story, by keyboard alone: a session of two blocks, given to the squad."""

from __future__ import annotations

import re
from pathlib import Path

from playwright.sync_api import Page, expect
from pypdf import PdfReader

from tests.e2e.keyboard import Keyboard
from tests.e2e.steps_owner import COACH_PASSWORD

# Letter, rounds, rest, and lines as they are typed: 4 x 3 and 3 x 4, 24 sets for everyone.
BLOCKS = [
    ("A", "4", "2:00", [("Back squat", "5 @ 60 kg"), ("Press-up", "8"), ("Bent-over dumbbell row", "10 @ 16 kg")]),
    (
        "B",
        "3",
        "1:30",
        [
            ("Romanian deadlift", "8 @ 60 kg"),
            ("Dumbbell bench press", "8 @ 14 kg"),
            ("Goblet squat", "10 @ 20 kg"),
            ("Front plank", "30 s"),
        ],
    ),
]


def log_in(page: Page, server: str) -> None:
    keys = Keyboard(page)
    page.goto(f"{server}/login/")
    keys.write("User name or e-mail", "coach")
    keys.write("Password", COACH_PASSWORD)
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_have_text("Today")


def start_plan(page: Page) -> None:
    keys = Keyboard(page)
    keys.link("^Plans$")
    keys.link("Add the first plan")
    keys.write("Name", "Autumn strength")
    keys.choose("Squad (optional)", "Seniors")
    keys.button("Save")
    keys.link("Add.*session")
    keys.write("Name", "Squat and hinge")
    keys.button("Save")
    expect(page.get_by_role("heading", level=1)).to_have_text("Squat and hinge")


def write_session(page: Page) -> None:
    for letter, rounds, rest, lines in BLOCKS:
        write_block(page, letter, rounds, rest, lines)


def write_block(page: Page, letter: str, rounds: str, rest: str, lines: list[tuple[str, str]]) -> None:
    keys = Keyboard(page)
    keys.button("Add block – Strength")
    for name, dose in lines:
        keys.write("Exercise", name)
        keys.write("Dose", dose)
        keys.button("Add and go on")
        expect(page.get_by_role("link", name=name, exact=True)).to_be_visible()
    keys.link("^Done$")
    keys.link(f"Rounds and rest – Block {letter}")
    keys.write("Rounds", rounds)
    keys.write("Rest between rounds (optional)", rest)
    keys.button("^Save$")
    expect(page.get_by_text(f"{rounds} rounds")).to_be_visible()


def give_it(page: Page) -> None:
    """First who would get what; only then the cards."""
    keys = Keyboard(page)
    keys.link("^Today$")
    keys.link("^Give a session$")
    keys.choose("Session", "Autumn strength: Squat and hinge")
    keys.choose("Squad", "Seniors")
    keys.choose("Venue", "Mill Lane gym")
    keys.button("Show who gets what")
    expect(page.get_by_text("0 swaps, 0 exercises left out. The rest is as written.")).to_be_visible()
    expect(page.get_by_role("row", name=re.compile("^Ingrid Moss 60 kg as written 2 × 16 kg"))).to_be_visible()
    keys.button("Give it to those ticked")
    expect(page.get_by_text("0 of 3 have begun")).to_be_visible()


def make_code(page: Page) -> str:
    keys = Keyboard(page)
    keys.link("^Athletes$")
    keys.link("^Ingrid Moss$")
    keys.link("^Phone$")
    keys.button("Make the code")
    return page.locator(".code").inner_text()


def watch_floor(page: Page) -> None:
    """Open the floor, and leave a mark in the page that a reload would wipe away."""
    keys = Keyboard(page)
    keys.link("^Today$")
    keys.link("^Floor$")
    expect(page.get_by_text("0 of 3 have begun")).to_be_visible()
    page.evaluate("window.isTheSamePage = true")


def sees(page: Page, *texts: str) -> None:
    """In the athlete's row, by the page's own asking: within a few of its intervals, without a reload."""
    row = page.locator("tr").filter(has_text="Ingrid Moss")
    for text in texts:
        expect(row).to_contain_text(text)
    assert page.evaluate("window.isTheSamePage") is True


def reads_history(page: Page, struck: str, counts: str) -> None:
    """The set as it counts, and what was written before, struck through."""
    keys = Keyboard(page)
    keys.link("^Athletes$")
    keys.link("^Ingrid Moss$")
    keys.link("^What was done$")
    keys.link("^Back squat$")
    expect(page.locator("s")).to_have_text([struck])
    expect(page.get_by_role("row").filter(has_text=counts)).to_have_count(1)


def prints(page: Page, folder: Path) -> int:
    """Pages of the squad's cards."""
    keys = Keyboard(page)
    keys.link("^Today$")
    keys.link("^Squat and hinge$")
    keys.link("^Print$")
    keys.reach(page.get_by_role("button", name="Make the PDF"))
    with page.expect_download(timeout=60_000) as download:
        page.keyboard.press("Enter")
    path = folder / "cards.pdf"
    download.value.save_as(path)
    return len(PdfReader(path).pages)
