"""Opening every address of the program as somebody whom it lets in, at the two widths that are checked."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum
from typing import Any

from axe_playwright_python.sync_playwright import Axe
from django.urls import reverse
from playwright.sync_api import Page

from tests.access import whole_table
from tests.cast import Role
from tests.e2e.conftest import DESK, PHONE, OpenContext
from tests.e2e.demo_cast import DemoCast
from tests.e2e.people import let_in

TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
AXE = Axe()
TABLE = whole_table()

# Nobody looks at these: they answer a POST, a script or a proxy, or give a file.
POST_ONLY = {
    "desk:assignment_renew",
    "desk:block_add",
    "desk:block_move",
    "desk:code_revoke",
    "desk:floor_attendance",
    "desk:floor_mark",
    "desk:floor_round",
    "desk:line_move",
    "desk:part_add",
    "desk:part_move",
    "desk:phone_revoke",
    "desk:roster_cancel",
    "gym:log",
    "gym:red_flag",
}
NO_PAGE = {
    "desk:bests_csv",
    "desk:bests_xlsx",
    "desk:dose_check",
    "desk:exercise_matches",
    "desk:line_options",
    "desk:roster_csv",
    "desk:roster_xlsx",
    "healthz",
    "readyz",
}
# Opened with a fresh link, in a test of its own.
BY_LINK = {"front:enrol_link", "front:enrol_phone"}


class Shape(Enum):
    """A phone by day, a desk by night."""

    PHONE_LIGHT = {"viewport": PHONE, "color_scheme": "light", "has_touch": True}
    DESK_DARK = {"viewport": DESK, "color_scheme": "dark"}


@dataclass
class Visits:
    """The addresses of the program, each opened by somebody whom it lets in: one browser for each person."""

    cast: DemoCast
    server: str
    open_context: OpenContext
    shape: Shape
    browsers: dict[Role, Page] = field(default_factory=dict)

    def open(self, name: str) -> Page:
        arguments = gym_arguments(self.cast, name) if name.startswith("gym:") else TABLE[name].args(self.cast)
        page = self.browser_of(visitor(name))
        page.goto(self.server + reverse(name, kwargs=arguments))
        return page

    def browser_of(self, role: Role) -> Page:
        if role not in self.browsers:
            context = self.open_context(**self.shape.value)
            self.browsers[role] = let_in(context, self.server, self.cast.client_of(role)).new_page()
        return self.browsers[role]


def gym_arguments(cast: DemoCast, name: str) -> dict[str, Any]:
    more = {"gym:round": {"group": cast.line.group_key, "number": 1}, "gym:told": {"what": "stop"}, "gym:home": {}}
    return {} if name == "gym:home" else {"pk": cast.card.pk} | more.get(name, {})


def visitor(name: str) -> Role:
    """Who opens it: an athlete in the gym, else the first whom the reviewed table lets in."""
    expected = TABLE[name].expected()
    order = (Role.ATHLETE, Role.OWNER, Role.ANONYMOUS) if name.startswith("gym:") else (Role.OWNER, Role.ANONYMOUS)
    return next(role for role in order if expected["GET", role] == "200")


def pages() -> list[str]:
    return sorted(set(TABLE) - POST_ONLY - NO_PAGE - BY_LINK)


def findings(page: Page) -> list[str]:
    """What axe finds: rule, element, and the figures that it saw."""
    found = AXE.run(page, options={"runOnly": {"type": "tag", "values": TAGS}, "resultTypes": ["violations"]})
    return [
        f"{violation['id']}: {node['target']} {node.get('failureSummary', '')} {node['html'][:200]}"
        for violation in found.response["violations"]
        for node in violation["nodes"]
    ]
