"""Starting the web server, and the steps before it that every installation needs."""

from __future__ import annotations

import os
import socket
import sys
from typing import NoReturn

from django.core.management import CommandError, call_command
from django.db import DEFAULT_DB_ALIAS, connections
from django.db.migrations.executor import MigrationExecutor


def prepare_database() -> None:
    """Bring the tables up to date, the shared cache's table included; harmless when they are."""
    call_command("migrate", interactive=False, verbosity=0)
    call_command("createcachetable", verbosity=0)


def is_database_current() -> bool:
    """True if no migration waits."""
    executor = MigrationExecutor(connections[DEFAULT_DB_ALIAS])
    return not executor.migration_plan(executor.loader.graph.leaf_nodes())


def check_port_free(host: str, port: int) -> None:
    with socket.socket() as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((host, port))
        except OSError as error:
            raise CommandError(
                f"Cannot listen on {host}:{port} ({error.strerror}); choose another with --port."
            ) from error


def run_server(*, host: str, port: int, workers: int) -> NoReturn:
    """Become gunicorn. Threads, because a browser holds idle connections that would each block a plain worker."""
    call_command("collectstatic", interactive=False, verbosity=0)
    connections.close_all()
    address = f"{host}:{port}"
    command = [
        *(sys.executable, "-m", "gunicorn", "coachhub.wsgi:application", "--bind", address),
        *("--workers", str(workers), "--worker-class", "gthread", "--threads", "4"),
        *("--no-control-socket", "--log-level", "warning", "--config", "python:coachhub.base.gunicorn_hooks"),
    ]
    sys.stdout.flush()
    os.execv(sys.executable, command)  # noqa: S606
