"""The athlete's part of the story, with a thumb: a code once, then one tap a round."""

from __future__ import annotations

import re

from playwright.sync_api import Page, expect

ROUNDS = {"A": 4, "B": 3}


def enrol(page: Page, server: str, code: str) -> None:
    page.goto(server)
    page.get_by_role("link", name="Athlete: type your code").tap()
    page.get_by_label("Code").fill(code.lower().replace("-", " "))
    page.get_by_role("button", name="Bind this phone").tap()
    page.get_by_role("link", name="Open the card").tap()
    expect(page.get_by_role("heading", level=1)).to_have_text("Squat and hinge")


def tap_round(page: Page, block: str, number: int) -> None:
    """The whole round with one tap."""
    section = page.get_by_role("region", name=f"Block {block}")
    section.get_by_role("button", name=f"Round {number} done as planned").tap()
    expect(section.get_by_role("link", name=re.compile(f"Round {number} "))).to_be_visible()


def tap_rest(page: Page) -> int:
    """The rounds after the first, as planned; returns the taps."""
    rounds = [(block, number) for block, count in ROUNDS.items() for number in range(1, count + 1)][1:]
    for block, number in rounds:
        tap_round(page, block, number)
    expect(page.get_by_text("All that was planned is written.")).to_be_visible()
    return len(rounds)


def correct_squat(page: Page, number: int, reps: str) -> None:
    section = page.get_by_role("region", name="Block A")
    section.get_by_role("link", name=re.compile(f"Round {number} ")).tap()
    squat = page.get_by_role("group", name=re.compile("A1 Back squat"))
    squat.get_by_label("Done, reps").fill(reps)
    page.get_by_role("button", name="Write this round").tap()
    expect(section.get_by_role("link", name=re.compile(f"Round {number} .*× {reps} "))).to_be_visible()
