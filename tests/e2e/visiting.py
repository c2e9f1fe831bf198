"""Opening every address of the program as somebody whom it lets in, at the two widths that are checked."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from enum import Enum

from axe_playwright_python.sync_playwright import Axe
from django.urls import reverse
from playwright.sync_api import Page

from tests.access import whole_table
from tests.access.season import own_sport
from tests.cast import Cast, Role
from tests.e2e.conftest import DESK, PHONE, OpenContext
from tests.e2e.demo_cast import DemoCast
from tests.e2e.people import let_in

TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
AXE = Axe()
TABLE = whole_table()

# Nobody looks at these: they answer a script or a proxy, or give a file.
NO_PAGE = {
    "desk:bests_csv",
    "desk:bests_xlsx",
    "desk:day_csv",
    "desk:day_xlsx",
    "desk:dose_check",
    "desk:exercise_file",
    "desk:exercise_matches",
    "desk:history_csv",
    "desk:history_xlsx",
    "desk:line_options",
    "desk:own_dose_check",
    "desk:roster_csv",
    "desk:roster_xlsx",
    "desk:season_csv",
    "desk:season_xlsx",
    "desk:squad_sets_csv",
    "desk:squad_sets_xlsx",
    "healthz",
    "readyz",
}


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
    made: dict[Callable[[Cast], dict[str, object]], dict[str, object]] = field(default_factory=dict)

    def open(self, name: str) -> Page:
        page = self.browser_of(visitor(name))
        page.goto(self.server + reverse(name, kwargs=self.arguments(name)))
        return page

    def arguments(self, name: str) -> dict[str, object]:
        """Some rows of the table make what they lead to: once is enough."""
        make = TABLE[name].args
        if name.startswith("gym:"):
            return gym_arguments(self.cast, name)
        if make not in self.made:
            self.made[make] = make(self.cast)
        return self.made[make]

    def browser_of(self, role: Role) -> Page:
        if role not in self.browsers:
            context = self.open_context(**self.shape.value)
            self.browsers[role] = let_in(context, self.server, self.cast.client_of(role)).new_page()
        return self.browsers[role]


def gym_arguments(cast: DemoCast, name: str) -> dict[str, object]:
    card: dict[str, object] = {"pk": cast.card.pk}
    own = own_sport(cast) if name.startswith("gym:date_") else {}
    more: dict[str, dict[str, object]] = {
        "gym:absence": {},
        "gym:date_add": {},
        "gym:date_edit": own,
        "gym:dates": {},
        "gym:feed": {},
        "gym:history": {},
        "gym:history_exercise": {"pk": cast.line.exercise_id},
        "gym:home": {},
        "gym:round": {**card, "group": cast.line.group_key, "number": 1},
    }
    return more.get(name, {**card, "what": "stop"} if name == "gym:told" else card)


def visitor(name: str) -> Role:
    """Who opens it: an athlete in the gym, else the first whom the reviewed table lets in."""
    expected = TABLE[name].expected()
    order = (Role.ATHLETE,) if name.startswith("gym:") else (Role.OWNER, Role.COACH, Role.ANONYMOUS)
    return next(role for role in order if expected["GET", role] == "200")


def pages() -> list[str]:
    """Every address that the reviewed table lets somebody open; what only takes a POST opens for nobody."""
    opened = {name for name, row in TABLE.items() if "200" in row.get.split()}
    return sorted(opened - NO_PAGE)


def findings(page: Page) -> list[str]:
    """What axe finds: rule, element, and the figures that it saw."""
    found = AXE.run(page, options={"runOnly": {"type": "tag", "values": TAGS}, "resultTypes": ["violations"]})
    return [
        f"{violation['id']}: {node['target']} {node.get('failureSummary', '')} {node['html'][:200]}"
        for violation in found.response["violations"]
        for node in violation["nodes"]
    ]
