"""The layers hold, and every change of a model has its migration."""

from __future__ import annotations

import pytest
from django.core.management import call_command
from importlinter.cli import lint_imports


def test_imports_follow_the_layers(capsys: pytest.CaptureFixture[str]) -> None:
    assert lint_imports(no_cache=True) == 0, capsys.readouterr().out


@pytest.mark.django_db
def test_no_migration_is_missing() -> None:
    call_command("makemigrations", check=True, dry_run=True, verbosity=0)
