"""The whole demo club in a browser: loaded once a run, then copied for each story, since the load takes its time."""

from __future__ import annotations

import fcntl
import os
import sqlite3
from collections.abc import Iterator
from pathlib import Path
from typing import Protocol, cast

import pytest
from django.core.management import call_command
from django.db import connection
from django.utils import timezone
from playwright.sync_api import Page
from pytest_django import DjangoDbBlocker

from coachhub.demo.generate import load_demo_club
from coachhub.people.models import Club
from tests.e2e.conftest import DESK, OpenContext
from tests.e2e.evening.doors import log_in


class Desk(Protocol):
    """The browser of somebody on the staff who has just logged in: `desk_of("coach")`."""

    def __call__(self, username: str) -> Page: ...


@pytest.fixture(scope="session")
def loaded(tmp_path_factory: pytest.TempPathFactory, django_db_setup: None, django_db_blocker: DjangoDbBlocker) -> Path:
    """The club as a file. Of several processes the first makes it, and the others wait for it."""
    folder = tmp_path_factory.getbasetemp()
    if "PYTEST_XDIST_WORKER" in os.environ:
        folder = folder.parent
    path = folder / "whole-demo.sqlite3"
    with (folder / "whole-demo.lock").open("w") as lock, django_db_blocker.unblock():
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not path.exists():
            load_demo_club()
            with sqlite3.connect(path) as target:
                own_connection().backup(target)
            target.close()
            call_command("flush", interactive=False, verbosity=0)
    return path


@pytest.fixture
def club(loaded: Path, transactional_db: None) -> Iterator[Club]:
    """Tonight as the demo tells it; what a story changes is thrown away."""
    with sqlite3.connect(loaded) as source:
        source.backup(own_connection())
    source.close()
    club = Club.objects.get()
    with timezone.override(club.time_zone):
        yield club


@pytest.fixture
def desk_of(club: Club, server: str, open_context: OpenContext) -> Desk:
    def arrive(username: str) -> Page:
        page = open_context(viewport=DESK).new_page()
        log_in(page, server, username)
        return page

    return arrive


def own_connection() -> sqlite3.Connection:
    connection.ensure_connection()
    return cast(sqlite3.Connection, connection.connection)
