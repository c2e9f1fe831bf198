"""Writing by keyboard alone, counted; and what else the page of a session does in a browser."""

from __future__ import annotations

import re
from dataclasses import dataclass
from urllib.parse import parse_qs, urlsplit

import pytest
from django.urls import reverse
from playwright.sync_api import Locator, Page, expect

from coachhub.library.starting import import_starting_library
from coachhub.plans.models import Prescription, Session
from coachhub.plans.queries import load_session
from tests.cast import Cast, Role, make_cast
from tests.e2e.conftest import DESK, OpenContext
from tests.e2e.people import let_in
from tests.factories import PrescriptionFactory

# At 150 keys a minute, an unhurried typist, 400 keys are under three minutes.
MOST_KEYS = 400
MOST_STEPS_DOWN = 3

# Rest between rounds; then what is typed of the name until the list has it, its name, and the dose.
BLOCKS = [
    (
        "2:30",
        [
            ("front sq", "Front squat", "4x5 @ 2 rir"),
            ("box j", "Box jump", "3"),
            ("chin", "Chin-up", "4-6"),
        ],
    ),
    (
        "90",
        [
            ("roman", "Romanian deadlift", "3x8 @75%"),
            ("bench", "Bench press", "8 @ 2 rir"),
            ("farmer", "Farmer carry", "30m"),
        ],
    ),
    (
        "60",
        [
            ("rev", "Reverse lunge", "2x8/side"),
            ("single-arm dumb", "Single-arm dumbbell row", "10/side"),
            ("side pl", "Side plank", "30s/side"),
        ],
    ),
]


@dataclass
class Typist:
    """Presses keys and counts every one; a chord counts each of its keys."""

    page: Page
    keys: int = 0

    def press(self, chord: str, times: int = 1) -> None:
        for _ in range(times):
            self.page.keyboard.press(chord)
            self.keys += len(chord.split("+"))

    def type(self, text: str) -> None:
        self.page.keyboard.type(text)
        self.keys += len(text)

    def tab_to(self, target: Locator, *, back: bool = False, most: int = 12) -> None:
        for _ in range(most):
            if target.evaluate("node => node === document.activeElement"):
                return
            self.press("Shift+Tab" if back else "Tab")
        raise AssertionError(f"{target} is not reached by {most} steps")


@pytest.fixture
def cast(transactional_db: None) -> Cast:
    return make_cast()


@pytest.fixture
def page(cast: Cast, server: str, open_context: OpenContext) -> Page:
    return let_in(open_context(viewport=DESK), server, cast.client_of(Role.COACH)).new_page()


def start_session(typist: Typist, cast: Cast, server: str) -> None:
    """From the form of a new session, which is open with its name in focus."""
    typist.page.goto(server + reverse("desk:session_add", kwargs={"pk": cast.plan.pk}))
    typist.tab_to(typist.page.get_by_label("Name", exact=True), most=20)
    typist.keys = 0
    typist.type("Squat, pull")
    typist.press("Enter")
    expect(typist.page.get_by_role("heading", level=1)).to_have_text("Squat, pull")


def go_down_to(typist: Typist, name: str) -> None:
    """It stands among the first of the list; names that hold the words whole stand above it."""
    expect(typist.page.locator(f"[role=option][data-name='{name}']")).to_be_visible()
    selected = typist.page.locator("[role=option][aria-selected=true]")
    for _ in range(MOST_STEPS_DOWN):
        typist.press("ArrowDown")
        if selected.get_attribute("data-name") == name:
            return
    raise AssertionError(f"{name} is not among the first {MOST_STEPS_DOWN}")


def write_line(typist: Typist, typed: str, name: str, dose: str) -> None:
    page = typist.page
    exercise = page.locator("#id_exercise")
    expect(exercise).to_be_focused()
    with page.expect_response(lambda answer: parse_qs(urlsplit(answer.url).query).get("q") == [typed]):
        typist.type(typed)
    go_down_to(typist, name)
    typist.press("Enter")
    expect(exercise).to_have_value(name)
    typist.press("Tab")
    typist.type(dose)
    typist.press("Enter")
    expect(page.get_by_role("link", name=name, exact=True)).to_be_visible()


def write_rest(typist: Typist, rest: str) -> None:
    """The block's head is one step before its first exercise; from there it goes on into the exercise."""
    page = typist.page
    typist.tab_to(page.get_by_role("link", name=re.compile("^Rounds and rest – Block")).last, back=True)
    typist.press("Enter")
    expect(page.get_by_label("Rounds", exact=True)).to_be_focused()
    typist.press("Tab")
    typist.type(rest)
    typist.press("Enter")
    expect(page.get_by_role("link", name=re.compile("^Add exercise – Block")).last).to_be_focused()
    typist.press("Enter")


def write_blocks(typist: Typist) -> None:
    add = typist.page.get_by_role("button", name="Add block – Strength")
    for number, (rest, lines) in enumerate(BLOCKS):
        typist.tab_to(add, most=40)
        typist.press("Enter")
        expect(typist.page.locator(".no", has_text=f"{'ABC'[number]}1")).to_be_visible()
        write_rest(typist, rest)
        for typed, name, dose in lines:
            write_line(typist, typed, name, dose)


def test_nine_exercises_are_written_within_400_keys(cast: Cast, page: Page, server: str) -> None:
    import_starting_library()
    typist = Typist(page)
    start_session(typist, cast, server)

    write_blocks(typist)

    tree = load_session(Session.objects.get(name="Squat, pull").pk)
    written = [
        (block.label, str(block.rounds), block.row.rest_min_s, [line.exercise.name for line in block.lines])
        for block in tree.blocks
    ]
    assert written == [
        ("A", "4", 150, ["Front squat", "Box jump", "Chin-up"]),
        ("B", "3", 90, ["Romanian deadlift", "Bench press", "Farmer carry"]),
        ("C", "2", 60, ["Reverse lunge", "Single-arm dumbbell row", "Side plank"]),
    ]
    print(f"{typist.keys} keys: {typist.keys / 150:.1f} minutes at 150 a minute")  # noqa: T201  # the figure to be told
    assert typist.keys <= MOST_KEYS


def lines_of(session: Session) -> list[str]:
    return [f"{line.label} {line.exercise.name}" for line in load_session(session.pk).lines]


@pytest.fixture
def session(cast: Cast) -> Session:
    """Two lines in Block A."""
    PrescriptionFactory.create(group=cast.prescription.group, position=1, exercise__name="Hop and hold")
    return cast.session


def test_line_is_moved_by_keys_and_its_new_place_is_said(page: Page, server: str, session: Session) -> None:
    page.goto(server + reverse("desk:session", kwargs={"pk": session.pk}))
    line = page.get_by_role("link", name="Hop and hold", exact=True)
    line.focus()

    page.keyboard.press("Alt+ArrowUp")

    expect(page.locator("#told")).to_have_text("A1 Hop and hold: place 1 of 2 in Block A")
    expect(line).to_be_focused()
    assert lines_of(session) == ["A1 Hop and hold", "A2 Romanian deadlift"]


def drag_first_below_second(page: Page) -> None:
    """The button of the mouse stays down."""
    rows = page.locator("li[data-place]")
    rows.nth(0).locator("[data-drag]").hover()
    page.mouse.down()
    box = rows.nth(1).bounding_box()
    assert box is not None
    page.mouse.move(box["x"] + 60, box["y"] + box["height"] - 4, steps=5)


def test_line_is_dragged_to_its_place(page: Page, server: str, session: Session) -> None:
    page.goto(server + reverse("desk:session", kwargs={"pk": session.pk}) + "?arrange=1")
    drag_first_below_second(page)
    page.mouse.up()

    expect(page.locator("#told")).to_have_text("A2 Romanian deadlift: place 2 of 2 in Block A")
    assert lines_of(session) == ["A1 Hop and hold", "A2 Romanian deadlift"]


def test_escape_leaves_a_dragged_line_where_it_was(page: Page, server: str, session: Session) -> None:
    page.goto(server + reverse("desk:session", kwargs={"pk": session.pk}) + "?arrange=1")
    drag_first_below_second(page)
    expect(page.locator(".drop")).to_have_count(1)
    page.keyboard.press("Escape")
    expect(page.locator(".drop")).to_have_count(0)
    page.mouse.up()

    assert (session.revision, lines_of(session)) == (1, ["A1 Romanian deadlift", "A2 Hop and hold"])


def test_removal_is_taken_back_by_the_key_that_follows(page: Page, server: str, session: Session) -> None:
    page.goto(server + reverse("desk:session", kwargs={"pk": session.pk}) + "?arrange=1")
    keys = list(Prescription.objects.values_list("pk", flat=True))

    page.get_by_role("button", name="Remove – A1").click()
    expect(page.get_by_role("button", name="Undo", exact=True)).to_be_focused()
    page.keyboard.press("Enter")

    expect(page.locator("li[data-place]")).to_have_count(2)
    assert list(Prescription.objects.values_list("pk", flat=True)) == keys


def test_time_follows_the_dose_as_it_is_typed(cast: Cast, page: Page, server: str, session: Session) -> None:
    page.goto(server + reverse("desk:line", kwargs={"pk": cast.prescription.pk}))

    page.get_by_label("Dose", exact=True).fill("600 s")

    expect(page.locator("#dose-reading")).to_contain_text("With it 35 of 60 minutes")
    expect(page.get_by_role("heading", name="of 60 minutes")).to_have_text("6 of 60 minutes")
