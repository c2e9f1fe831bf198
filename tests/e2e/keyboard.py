"""A page without a pointer: what Tab does not reach cannot be used."""

from __future__ import annotations

import re

from playwright.sync_api import Locator, Page, expect

MOST_STEPS = 120
HAS_FOCUS = "node => node === document.activeElement"


class Keyboard:
    def __init__(self, page: Page) -> None:
        self.page = page

    def button(self, name: str) -> None:
        self.press(self.page.get_by_role("button", name=re.compile(name)))

    def link(self, name: str) -> None:
        self.press(self.page.get_by_role("link", name=re.compile(name)))

    def press(self, target: Locator) -> None:
        self.reach(target)
        self.page.keyboard.press("Enter")

    def field(self, label: str) -> Locator:
        return self.page.get_by_label(label, exact=True).and_(self.page.locator("input, select, textarea"))

    def write(self, label: str, text: str) -> Locator:
        """Type into the field of this label, over what stood in it."""
        field = self.field(label)
        self.reach(field)
        self.page.keyboard.press("Control+A")
        self.page.keyboard.type(text)
        expect(field).to_have_value(text)
        return field

    def choose(self, label: str, option: str) -> None:
        """Go down a list until it shows this option."""
        field = self.field(label)
        self.reach(field)
        self.page.keyboard.press("Home")
        for _ in range(field.locator("option").count()):
            if field.evaluate("node => node.selectedOptions[0].label") == option:
                return
            self.page.keyboard.press("ArrowDown")
        raise AssertionError(f"“{label}” does not offer “{option}”")

    def reach(self, target: Locator) -> None:
        """Tab until the target has the focus."""
        expect(target).to_be_visible()
        for _ in range(MOST_STEPS):
            if target.evaluate(HAS_FOCUS):
                return
            self.page.keyboard.press("Tab")
        raise AssertionError(f"{target} is not reached by {MOST_STEPS} steps of Tab")
