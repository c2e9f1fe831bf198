"""The demo club, on this machine alone, with a database of its own."""

from __future__ import annotations

from argparse import ArgumentParser
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError

from coachhub.base.serving import check_port_free, prepare_database, run_server
from coachhub.demo.generate import load_demo_club

HOST = "127.0.0.1"


class Command(BaseCommand):
    help = "Load an invented club with its history and serve it on this machine."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--reset", action="store_true", help="throw the demo's data away and load it anew")
        parser.add_argument("--no-serve", action="store_true", help="stop before serving")
        parser.add_argument("--port", type=int, default=8000)

    def handle(self, *args: Any, **options: Any) -> None:
        if not settings.DEMO:
            raise CommandError("Start the demo with: python3 manage.py demo")
        if not options["no_serve"]:
            check_port_free(HOST, options["port"])
        prepare_database()
        for line in load_demo_club(reset=options["reset"]):
            self.stdout.write(line)
        if not options["no_serve"]:
            self.stdout.write(f"Open http://{HOST}:{options['port']}/  (stop with Ctrl-C)")
            run_server(host=HOST, port=options["port"], workers=2)
