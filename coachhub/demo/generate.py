"""The invented club that the demo shows."""

from __future__ import annotations

import logging
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import timedelta
from typing import Final

from django.core.management import call_command
from django.db import transaction
from django.utils import timezone

from coachhub.base.clock import today
from coachhub.cards.models import Assignment
from coachhub.demo.club import PASSWORD, fill_calendar, make_club
from coachhub.demo.data import SESSIONS, read, story
from coachhub.demo.days import training_days
from coachhub.demo.history import play
from coachhub.demo.plan import make_plan
from coachhub.demo.stage import make_stage
from coachhub.demo.venue import make_venue
from coachhub.library.starting import import_starting_library
from coachhub.people.access import staff_actor
from coachhub.people.actions import make_enrolment_code
from coachhub.people.models import Athlete, Club, StaffRole, User

CODE_LIFETIME: Final = timedelta(days=1)


def load_demo_club(*, reset: bool = False) -> list[str]:
    """Load the club if it is missing; with `reset` throw everything in the database away first.

    Returns lines to print: one login a role, and fresh codes for two athletes.
    """
    if reset:
        call_command("flush", interactive=False, verbosity=0)
    with timezone.override(read("people")["time_zone"]), _quiet():
        if not Club.objects.exists():
            _load()
        return [*login_lines(), *code_lines(), *age_lines()]


@contextmanager
def _quiet() -> Iterator[None]:
    """A story of a hundred verbs would fill the screen with what was done about whom."""
    logging.disable(logging.INFO)
    try:
        yield
    finally:
        logging.disable(logging.NOTSET)


@transaction.atomic
def _load() -> None:
    import_starting_library()
    days = training_days(today(), SESSIONS)
    club = make_club(today(), days[0])
    venue = make_venue(club.coach)
    fill_calendar(club.squad, venue, today(), days[0])
    stage = make_stage(club, venue, make_plan(club.coach, club.squad), story())
    play(stage, days, today())


def login_lines() -> list[str]:
    return [
        f"{StaffRole(row['role']).label}: user name {row['username']}, passphrase {PASSWORD}"
        for row in read("people")["staff"]
    ]


def code_lines() -> list[str]:
    """Make a new code for each of the athletes of the story who have no phone yet; older codes stop working."""
    coach = staff_actor(User.objects.get(username="coach"))
    if coach is None:
        return []
    athletes = Athlete.objects.live().filter(given_name__in=story().code_names).order_by("search_key")
    codes = [make_enrolment_code(actor=coach, athlete=athlete, lifetime=CODE_LIFETIME) for athlete in athletes]
    return [f"athlete: {made.athlete.name}, code {made.code} at /enrol/ (once, within a day)" for made in codes]


def age_lines() -> list[str]:
    """Say so where "today's session" has become yesterday's."""
    newest = Assignment.objects.order_by("-on_date").values_list("on_date", flat=True).first()
    if newest is None or newest >= today():
        return []
    return [f"The last session here was on {newest}. Start with --reset for one that is today."]
