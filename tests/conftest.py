"""What every test run shares."""

from __future__ import annotations

from pathlib import Path
from typing import Final

import pytest
from django.core.cache import cache
from django.test import TransactionTestCase
from hypothesis import HealthCheck, settings

from tests.cast import Cast, make_cast

TESTS: Final = Path(__file__).parent
# Long, and the same whatever the database: who may open what, what is seen of whom, how paper is laid out.
ONCE: Final = frozenset(
    {
        "test_access.py",
        "desk/test_fields_by_role.py",
        "paper/test_sizes.py",
        "paper/test_squad.py",
        "paper/test_units_and_sizes.py",
    }
)

# A busy machine is no mistake in the code: nothing here is judged by the clock.
settings.register_profile("suite", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("suite")


def touches_database(item: pytest.Item) -> bool:
    fixtures = set(getattr(item, "fixturenames", ()))
    by_class = isinstance(cls := getattr(item, "cls", None), type) and issubclass(cls, TransactionTestCase)
    return by_class or bool(
        item.get_closest_marker("django_db") or fixtures & {"db", "transactional_db", "live_server"}
    )


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark what the run on PostgreSQL takes, and what needs a browser, so that nobody has to remember it."""
    for item in items:
        if touches_database(item):
            item.add_marker("database")
        if "loaded" in getattr(item, "fixturenames", ()):
            item.add_marker("whole_demo")
        if item.path.relative_to(TESTS).as_posix() in ONCE:
            item.add_marker("once")
        if "e2e" in item.path.parts:
            item.add_marker("e2e")


@pytest.fixture(autouse=True)
def _fresh_limits(request: pytest.FixtureRequest) -> None:
    """Sign-in limits of one test must not reach the next where rows are not rolled back."""
    if "transactional_db" in request.fixturenames:
        request.getfixturevalue("transactional_db")
        cache.clear()


@pytest.fixture
def cast(db: None) -> Cast:
    """The fixed cast, in the database."""
    return make_cast()
