"""A new constraint fails here until a test of its app has broken it."""

from __future__ import annotations

from importlib import import_module

import pytest
from django.apps import apps

from tests.constraints import promises

RECORDS = ("library", "season", "plans", "cards", "insight")
OWN = ("people",)  # holds itself to all of its own


@pytest.mark.parametrize("app", RECORDS)
def test_each_constraint_is_broken_by_a_test(app: str) -> None:
    module = import_module(f"tests.{app}.test_constraints")
    assert set(module.BREAKS) == promises(app)


def test_every_app_with_promises_is_among_them() -> None:
    own = [config.label for config in apps.get_app_configs() if config.name.startswith("coachhub.")]
    assert {label for label in own if promises(label)} == {*RECORDS, *OWN}
