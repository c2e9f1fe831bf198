"""The demo club, loaded once for every test here that only reads it."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from django.core.management import call_command
from django.utils import timezone
from pytest_django import DjangoDbBlocker

from coachhub.demo.generate import load_demo_club
from coachhub.people.models import Club


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
