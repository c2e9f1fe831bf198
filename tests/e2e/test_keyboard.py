"""Without a pointer: Tab comes to every control in the order of the page, each shows it, and the last lets go."""

from __future__ import annotations

from datetime import timedelta

import pytest
from playwright.sync_api import Page

from coachhub.base.clock import today
from tests.cards.conftest import Evening
from tests.cast import Role
from tests.e2e.conftest import DESK, PHONE, OpenContext
from tests.e2e.people import let_in

pytestmark = pytest.mark.django_db(transaction=True)

DESCRIBE = """
    node => `${node.localName} ${node.id || node.name || ""} ${node.innerText ?? ""}`.replace(/\\s+/g, " ").trim()
"""
# Of radio buttons with one name Tab stops at the chosen one, else at the first.
CONTROLS = f"""
    () => [...document.querySelectorAll("a[href], button, input, select, textarea, summary, [tabindex='0']")]
        .filter(node => node.checkVisibility({{visibilityProperty: true}}) && !node.disabled && node.type !== "hidden")
        .filter((node, _, all) => {{
            const group = all.filter(other => other.type === "radio" && other.name === node.name);
            return node.type !== "radio" || node === (group.find(one => one.checked) ?? group[0]);
        }})
        .map({DESCRIBE})
"""
# The ring is drawn around the control, or around the label that it stands in.
FOCUSED = f"""
    () => {{
        const node = document.activeElement;
        const isRing = style => style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2;
        const around = [node, node.closest("label")].filter(Boolean);
        const isNew = node !== window.lastStop;
        window.lastStop = node;
        const name = node === document.body ? "" : ({DESCRIBE})(node);
        return [name, isNew, around.some(one => isRing(getComputedStyle(one)))];
    }}
"""


def walk(page: Page, most: int = 200) -> list[tuple[str, bool]]:
    """Every stop of Tab with whether it shows the focus, until the focus leaves the page."""
    stops: list[tuple[str, bool]] = []
    for _ in range(most):
        page.keyboard.press("Tab")
        name, is_new, is_shown = page.evaluate(FOCUSED)
        if not name:
            return stops
        if is_new:  # a date has three places to stop inside
            stops.append((name, is_shown))
    raise AssertionError(f"the focus does not leave the page: {stops[-5:]}")


def places(evening: Evening) -> dict[str, object]:
    return {
        "card": evening.card().pk,
        "assignment": evening.assignment.pk,
        "session": evening.session.pk,
        "squad": evening.cast.squad.pk,
        "venue": evening.cast.venue.pk,
        "day": today() + timedelta(days=1),
    }


@pytest.mark.parametrize(
    ("role", "address"),
    [
        (Role.ATHLETE, "/g/cards/{card}"),
        (Role.ATHLETE, "/g/cards/{card}/hurts"),
        (Role.COACH, "/assignments/{assignment}/floor/"),
        (Role.COACH, "/plans/sessions/{session}/"),
        (Role.COACH, "/assign/?session={session}&squad={squad}&venue={venue}&on_date={day}&week=1&show=1"),
    ],
    ids=["card", "hurts", "floor", "session", "assign"],
)
def test_tab_reaches_every_control_and_leaves(
    role: Role, address: str, server: str, evening: Evening, open_context: OpenContext
) -> None:
    context = open_context(viewport=PHONE if role is Role.ATHLETE else DESK)
    page = let_in(context, server, evening.cast.client_of(role)).new_page()
    page.goto(server + address.format(**places(evening)))

    stops = walk(page)

    assert [name for name, _ in stops] == page.evaluate(CONTROLS)
    assert [name for name, is_shown in stops if not is_shown] == []
