"""How people come in, and where they find what is going on tonight."""

from __future__ import annotations

from playwright.sync_api import Page, expect

from coachhub.base.clock import today
from coachhub.cards.models import Assignment, Card
from coachhub.demo.club import PASSWORD
from coachhub.people.models import Athlete


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
