"""Set up the club's installation, or bring its database up to date after an update."""

from __future__ import annotations

import getpass
import sys
from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.exceptions import ValidationError
from django.core.management.base import BaseCommand, CommandError

from coachhub.base.models import MassUnit
from coachhub.base.serving import prepare_database
from coachhub.library.starting import import_starting_library
from coachhub.library.starting_file import LibraryError
from coachhub.people.actions import set_up_club
from coachhub.people.models import Club

QUESTIONS = {
    "club": "The club's name",
    "unit": "Loads in kg or lb",
    "time_zone": "Time zone, such as Europe/London",
    "owner": "User name of the owner's account",
    "email": "The owner's e-mail address (may stay empty)",
}
MAY_BE_EMPTY = {"email"}


class Command(BaseCommand):
    help = "Make the database, the club and its owner's account. Asks for what is not given by a flag."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--club", help="the club's name")
        parser.add_argument("--unit", choices=MassUnit.values, help="what loads are entered in")
        parser.add_argument("--time-zone", help="such as Europe/London")
        parser.add_argument("--owner", help="user name of the owner's account")
        parser.add_argument("--email", help="the owner's e-mail address; may be empty")
        parser.add_argument("--password-file", help="file with the owner's password; - reads it from standard input")

    def handle(self, *args: Any, **options: Any) -> None:
        if settings.DEMO:
            raise CommandError("The demo sets itself up: python3 manage.py demo")
        prepare_database()
        try:
            import_starting_library()
        except LibraryError as error:
            raise CommandError(f"The starting library was not brought up to date: {error}") from error
        if Club.objects.exists():
            self.stdout.write("The database is up to date; the club was set up before.")
            return
        answers = {name: given(name, options[name]) for name in QUESTIONS}
        password = read_password(options["password_file"])
        try:
            club = set_up_club(
                name=answers["club"],
                unit=answers["unit"],
                time_zone=answers["time_zone"],
                username=answers["owner"],
                email=answers["email"],
                password=password,
            )
        except ValidationError as error:
            raise CommandError(f"Not set up. {told(error)}") from error
        self.stdout.write(f"{club.name} is set up. Start it with: python3 manage.py serve")


def told(error: ValidationError) -> str:
    """Each complaint with the flag it is about."""
    flags = {"name": "--club", "time_zone": "--time-zone", "username": "--owner", "password": "--password-file"}
    fields = getattr(error, "error_dict", {})
    parts = [(flags.get(field, f"--{field}"), ValidationError(found).messages) for field, found in fields.items()]
    return " ".join(f"{flag}: {' '.join(messages)}" for flag, messages in parts) or " ".join(error.messages)


def given(name: str, value: str | None) -> str:
    """The flag's value, or the answer of the person at the keyboard."""
    if value is not None:
        return value
    if not sys.stdin.isatty():
        raise CommandError(f"Not set up. --{name.replace('_', '-')} is missing, and nobody is there to ask.")
    while True:
        answer = input(f"{QUESTIONS[name]}: ").strip()
        if answer or name in MAY_BE_EMPTY:
            return answer


def read_password(source: str | None) -> str:
    """From the file, from standard input, or typed twice unseen."""
    if source == "-":
        return sys.stdin.readline().rstrip("\r\n")
    if source is not None:
        try:
            return Path(source).read_text("utf-8").rstrip("\r\n")
        except OSError as error:
            raise CommandError(f"Not set up. The password file cannot be read ({error.strerror}).") from error
    if not sys.stdin.isatty():
        raise CommandError("Not set up. --password-file is missing, and nobody is there to ask.")
    while True:
        first = getpass.getpass("The owner's password (15 characters or more): ")
        if first == getpass.getpass("The same again: "):
            return first
        print("These differ; once more.", file=sys.stderr)  # noqa: T201
