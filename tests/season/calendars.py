"""Calendar files as text, taken through the steps that a coach takes."""

from __future__ import annotations

import io
from typing import Any

from coachhub.base.actor import Actor
from coachhub.base.changes import digest
from coachhub.base.columns import Reading
from coachhub.base.tables import Table, csv_bytes, read_table
from coachhub.people.actions import keep_draft, set_reading
from coachhub.people.forms_files import guess_reading
from coachhub.people.models import ImportKind, Squad
from coachhub.season.actions.files import import_dates
from coachhub.season.files.changes import DateOutcome, review_dates
from coachhub.season.files.columns import COLUMNS, KEYS
from coachhub.season.files.ics import read_dates


def event(*lines: str, uid: str = "a@x", start: str = "20261130T180000") -> str:
    """A floating hour on a Monday, unless `start` says otherwise."""
    told = [f"UID:{uid}"] if uid else []
    return "\r\n".join(
        ["BEGIN:VEVENT", *told, f"DTSTART:{start}" if start[0].isdigit() else start, *lines, "END:VEVENT"]
    )


def calendar(*events: str, encoding: str = "utf-8") -> Table:
    text = "\r\n".join(["BEGIN:VCALENDAR", "VERSION:2.0", *events, "END:VCALENDAR", ""])
    return read_dates(io.BytesIO(text.encode(encoding)))


def cells(table: Table, number: int = 0) -> dict[str, str]:
    """The filled cells of a row by their keys."""
    return {key: cell for key, cell in zip(KEYS, table.rows[number].cells, strict=True) if cell}


def dates_table(header: str, *lines: str) -> Table:
    """Cells parted by a bar."""
    return read_table(io.BytesIO(csv_bytes(line.split("|") for line in (header, *lines))))


def reading_for(table: Table, squad: Squad | None, what: str = "training") -> Reading:
    guess = guess_reading(table, COLUMNS, "from_on", "kg")
    return Reading(guess.columns, guess.day_order, "", squad.pk if squad else None, what)


def review(actor: Actor, table: Table, squad: Squad | None, what: str = "training") -> list[DateOutcome]:
    return review_dates(actor, table, reading_for(table, squad, what))


def import_table(actor: Actor, table: Table, squad: Squad | None, what: str = "training") -> dict[str, Any]:
    draft = keep_draft(actor=actor, kind=ImportKind.SEASON, file_name="calendar.ics", table=table)
    set_reading(actor=actor, draft=draft, reading=reading_for(table, squad, what))
    return import_dates(actor=actor, draft_pk=draft.pk, seen=digest(review(actor, table, squad, what)))


def counts(error: int = 0, new: int = 0, updated: int = 0, unchanged: int = 0) -> dict[str, int]:
    return {"error": error, "new": new, "updated": updated, "unchanged": unchanged}
