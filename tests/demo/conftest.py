"""The demo club, loaded once for every test here that only reads it."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from django.core.management import call_command
from django.utils import timezone
from pytest_django import DjangoDbBlocker

from coachhub.cards.models import SetEntry
from coachhub.cards.queries.athlete_facts import counting_entries
from coachhub.cards.queries.session_facts import exercise_facts
from coachhub.coaching.rungs import Ladder, ladder_for
from coachhub.demo.generate import load_demo_club
from coachhub.library.models import Exercise, Venue
from coachhub.library.queries import venue_stock
from coachhub.people.models import Athlete, Club

Ladders = dict[tuple[int, int], Ladder | None]


@pytest.fixture(scope="package")
def loaded(django_db_setup: None, django_db_blocker: DjangoDbBlocker) -> Iterator[list[str]]:
    """Commit the demo and throw it away after these tests: loading it takes seconds."""
    with django_db_blocker.unblock():
        lines = load_demo_club()
        yield lines
        call_command("flush", interactive=False, verbosity=0)


@pytest.fixture
def demo(loaded: list[str], db: None) -> Iterator[list[str]]:
    """What the command printed; the club is in the database, and what a test changes is rolled back."""
    with timezone.override(Club.objects.get().time_zone):
        yield loaded


@pytest.fixture
def ladders(demo: list[str]) -> Ladders:
    """The loads that can be made, by venue and exercise."""
    facts = exercise_facts(Exercise.objects.values_list("pk", flat=True))
    stocks = {venue.pk: venue_stock(venue) for venue in Venue.objects.all()}
    return {(pk, one): ladder_for(facts[one], stock) for pk, stock in stocks.items() for one in facts}


@pytest.fixture
def empty(db: None) -> None:
    """Nothing in the database, whatever is loaded for other tests; rolled back afterwards."""
    call_command("flush", interactive=False, verbosity=0)


@pytest.fixture(scope="package")
def done(loaded: list[str], django_db_blocker: DjangoDbBlocker) -> list[SetEntry]:
    """Every set that counts, with a load, oldest first."""
    with django_db_blocker.unblock():
        everyone = Athlete.objects.values_list("pk", flat=True)
        everything = Exercise.objects.values_list("pk", flat=True)
        return [entry for entry in counting_entries(everyone, everything) if entry.load_kg]
