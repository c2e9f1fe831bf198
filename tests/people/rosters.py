"""Rosters as text, taken through the steps that a coach takes."""

from __future__ import annotations

import io

from coachhub.base.actor import Actor
from coachhub.base.changes import digest
from coachhub.base.tables import Table, csv_bytes, read_table
from coachhub.people.actions import import_roster, keep_draft, set_reading
from coachhub.people.forms_files import guess_reading
from coachhub.people.models import ImportDraft, ImportKind
from coachhub.people.roster.changes import RosterOutcome, review_roster
from coachhub.people.roster.columns import COLUMNS

NEEDED = ("given name", "family name", "date of birth")


def table_of(header: str, *lines: str) -> Table:
    """Cells parted by a bar: table_of("given name|family name|…", "Runa|Beck|…")."""
    return read_table(io.BytesIO(csv_bytes(line.split("|") for line in (header, *lines))))


def review(actor: Actor, table: Table) -> list[RosterOutcome]:
    return review_roster(actor, table, guess_reading(table, COLUMNS, "born_on", "kg"))


def upload(actor: Actor, table: Table) -> ImportDraft:
    """Kept, with its columns matched by name."""
    draft = keep_draft(actor=actor, kind=ImportKind.ROSTER, file_name="roster.csv", table=table)
    set_reading(actor=actor, draft=draft, reading=guess_reading(table, COLUMNS, "born_on", "kg"))
    return draft


def import_table(actor: Actor, table: Table) -> dict[str, int]:
    draft = upload(actor, table)
    return import_roster(actor=actor, draft_pk=draft.pk, seen=digest(review(actor, table)))


def counts(error: int = 0, new: int = 0, updated: int = 0, unchanged: int = 0) -> dict[str, int]:
    return {"error": error, "new": new, "updated": updated, "unchanged": unchanged}
