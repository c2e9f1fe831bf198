"""The layers hold, and every change of a model has its migration."""

from __future__ import annotations

import subprocess
import sys

import pytest
from django.core.management import call_command

from tests.stages import LINT_IMPORTS, ROOT


def test_imports_follow_the_layers() -> None:
    """In a process of its own: the linter sets up logging anew, which would silence the loggers of other tests."""
    run = subprocess.run([sys.executable, "-c", LINT_IMPORTS], cwd=ROOT, capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stdout


@pytest.mark.django_db
def test_no_migration_is_missing() -> None:
    """The command ends with SystemExit where one is missing."""
    assert call_command("makemigrations", check=True, dry_run=True, verbosity=0) is None
