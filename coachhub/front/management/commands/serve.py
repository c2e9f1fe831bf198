"""Run the club's installation."""

from __future__ import annotations

from argparse import ArgumentParser
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError

from coachhub.base.serving import check_port_free, is_database_current, run_server
from coachhub.people.actions import drop_expired_drafts
from coachhub.people.models import Club


class Command(BaseCommand):
    help = "Serve the club's database with gunicorn, behind a proxy that brings TLS. Never a demo one."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--host", default="127.0.0.1", help="address to listen on (default: this machine only)")
        parser.add_argument("--port", type=int, default=8000)
        parser.add_argument("--workers", type=int, default=2, help="processes, each with four threads")

    def handle(self, *args: Any, **options: Any) -> None:
        check_is_a_clubs()
        check_port_free(options["host"], options["port"])
        drop_expired_drafts()
        self.stdout.write(f"coachhub listens on http://{options['host']}:{options['port']}/")
        if settings.TLS:
            self.stdout.write("It answers through a proxy that brings HTTPS; to look without one: COACHHUB_TLS=off")
        run_server(host=options["host"], port=options["port"], workers=options["workers"])


def check_is_a_clubs() -> None:
    """CommandError unless the database is up to date and holds a club that is no demo."""
    if settings.DEMO:
        raise CommandError("The demo is started with: python3 manage.py demo")
    if not is_database_current():
        raise CommandError("The database is new or from an older version. Run first: python3 manage.py setup")
    club = Club.objects.first()
    if club is None:
        raise CommandError("This installation has no club yet. Run first: python3 manage.py setup")
    if club.is_demo:
        raise CommandError("This database holds the demo club, so it is not served. Set up a database for your club.")
