"""What leaves the program as a file is on record."""

from __future__ import annotations

from django.db.models import Model

from coachhub.base.actor import Actor
from coachhub.people.audit import record


def note_export(*, actor: Actor, what: str, row: Model) -> None:
    """One line in the log: "coach user 3: exported entries of squad 2"."""
    record(actor, f"exported {what} of", row)
