#!/usr/bin/env python3
"""The one command: demo, setup, serve, test, and Django's own. The first start installs what is needed into .venv."""

import os
import sys
from pathlib import Path

from coachhub import bootstrap
from coachhub.environment import SettingError


def main(arguments: list[str]) -> int:
    command = arguments[1] if len(arguments) > 1 else "help"
    bootstrap.ensure(Path(__file__).resolve().parent, command)
    if command == "test":
        from tests.stages import run

        return run(arguments[2:])
    if command == "demo":
        os.environ["COACHHUB_DEMO"] = "1"
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "coachhub.settings")
    from django.core.management import execute_from_command_line

    execute_from_command_line(arguments)
    return 0


if __name__ == "__main__":
    try:
        sys.exit(main(sys.argv))
    except (SettingError, bootstrap.BootstrapError) as error:
        sys.exit(f"coachhub: {error}")
