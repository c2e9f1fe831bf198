"""No sideways scroll: on the narrowest phone, and with text twice as large."""

from __future__ import annotations

from playwright.sync_api import Page, ViewportSize

from tests.e2e.conftest import PHONE, OpenContext
from tests.e2e.demo_cast import DemoCast
from tests.e2e.visiting import Shape, Visits, pages

NARROW: ViewportSize = {"width": 320, "height": 640}
# What juts out, named by the element, if the page can be pushed sideways.
TOO_WIDE = """
    () => {
        const room = document.documentElement.clientWidth;
        if (document.documentElement.scrollWidth <= room) return [];
        const juts = [...document.body.querySelectorAll("*")].filter(
            node => node.getBoundingClientRect().right > room + 1 && !node.closest(".scroll *, .sr")
        );
        return juts.slice(-3).map(node => `${node.localName}.${node.className} ${node.innerText ?? ""}`.slice(0, 90));
    }
"""
TWICE = "() => { document.documentElement.style.fontSize = '200%'; }"


def too_wide(page: Page, size: ViewportSize, *, is_text_doubled: bool = False) -> list[str]:
    page.set_viewport_size(size)
    if is_text_doubled:
        page.evaluate(TWICE)
    juts: list[str] = page.evaluate(TOO_WIDE)
    return juts


def test_pages_fit_a_narrow_phone_and_text_of_double_size(
    demo_club: DemoCast, server: str, open_context: OpenContext
) -> None:
    visits = Visits(demo_club, server, open_context, Shape.PHONE_LIGHT)
    found: dict[str, list[str]] = {}

    for name in pages():
        page = visits.open(name)
        normal = too_wide(page, NARROW)
        doubled = too_wide(page, PHONE, is_text_doubled=True)
        if normal or doubled:
            found[name] = [*normal, *(f"200 %: {jut}" for jut in doubled)]

    assert found == {}
