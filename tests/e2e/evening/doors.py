"""How people come in, and where they find what is going on tonight."""

from __future__ import annotations

from datetime import timedelta

from playwright.sync_api import Locator, Page, expect

from coachhub.base.clock import today
from coachhub.cards.models import Assignment, Card, CardLine
from coachhub.demo.club import PASSWORD
from coachhub.people.access import staff_actor
from coachhub.people.actions import make_enrolment_code
from coachhub.people.models import Athlete, User


def log_in(page: Page, server: str, username: str, password: str = PASSWORD) -> None:
    page.goto(server)
    page.get_by_role("link", name="Staff: log in").click()
    page.get_by_label("User name or e-mail").fill(username)
    page.get_by_label("Password").fill(password)
    page.get_by_role("button", name="Log in").click()
    expect(page.get_by_role("navigation").first).to_be_visible()


def athlete(given_name: str) -> Athlete:
    return Athlete.objects.get(given_name=given_name)


def tonight(squad: str) -> Assignment:
    return Assignment.objects.get(squad__name=squad, on_date=today())


def card_of(given_name: str) -> Card:
    """Tonight's."""
    return Card.objects.get(athlete__given_name=given_name, assignment__on_date=today())


def go(page: Page, label: str) -> None:
    """By the row of links that stands on every page of the desk."""
    page.get_by_role("navigation").first.get_by_role("link", name=label, exact=True).click()


def enrol(page: Page, server: str, given_name: str) -> None:
    """By a code that her coach has just shown her; then the card of tonight is open."""
    coach = staff_actor(User.objects.get(username="coach"))
    assert coach is not None
    made = make_enrolment_code(actor=coach, athlete=athlete(given_name), lifetime=timedelta(hours=1))
    page.goto(server)
    page.get_by_role("link", name="Athlete: type your code").tap()
    page.get_by_label("Code").fill(made.code.lower())
    page.get_by_role("button", name="Bind this phone").tap()
    page.get_by_role("link", name="Open the card").tap()
    expect(page.get_by_role("heading", level=1)).to_have_text("Squat and pull")


def open_floor(page: Page, squad: str) -> None:
    go(page, "Today")
    page.get_by_role("row").filter(has_text=squad).get_by_role("link", name="Floor").first.click()


def on_floor(page: Page, name: str) -> Locator:
    return page.get_by_role("row").filter(has_text=name)


def lines_of(given_name: str) -> dict[str, CardLine]:
    """Tonight's card as it stands now, by label."""
    revision = card_of(given_name).revisions.order_by("-number")[0]
    return {line.label: line for line in revision.lines.exclude(label="")}
