"""Brings the starting library into the club's own: adds what is new, updates what nobody has edited."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from django.conf import settings
from django.db import transaction

from coachhub.base.text import fold
from coachhub.library.content import Content
from coachhub.library.models import Exercise
from coachhub.library.starting_file import LibraryError, StartingExercise, read_starting_library
from coachhub.library.writing import columns_of, replace_parts

__all__ = ["ImportReport", "LibraryError", "import_starting_library"]


@dataclass(frozen=True, slots=True)
class ImportReport:
    """How many rows were new, how many were brought up to date, how many stay as the club edited them."""

    added: int
    updated: int
    kept: int


def import_starting_library(folder: Path | None = None) -> ImportReport:
    """Import `folder` (without one: the library that comes with the program); doing it again changes nothing.

    Everything is checked first: LibraryError names the file, the row and the mistake, and nothing is written.
    """
    rows = read_starting_library(folder or settings.BASE_DIR / "fixtures" / "library")
    with transaction.atomic():
        return _write(rows)


def _write(rows: list[StartingExercise]) -> ImportReport:
    present = list(Exercise.objects.select_for_update().order_by("pk"))
    edited = {e.origin_key: e for e in present if e.edited_at is not None}
    fresh = [row for row in rows if row.key not in edited]
    _check_names(fresh, present)
    written = [Exercise(origin_key=row.key, **_columns(row)) for row in fresh]
    Exercise.objects.bulk_create(
        written, update_conflicts=True, unique_fields=["origin_key"], update_fields=list(_columns(rows[0]))
    )
    ids = {e.origin_key: e.pk for e in Exercise.objects.only("origin_key") if e.origin_key}
    replace_parts([(ids[row.key], row) for row in fresh], ids)
    _offer([(edited[row.key], row.text) for row in rows if row.key in edited])
    updated = len({row.key for row in fresh} & {e.origin_key for e in present})
    return ImportReport(added=len(fresh) - updated, updated=updated, kept=len(rows) - len(fresh))


def _columns(row: StartingExercise) -> dict[str, Any]:
    reviewed = {"is_regions_reviewed": bool(row.regions)}
    return columns_of(row) | reviewed | {"starting_digest": row.text.digest, "newer_text": None}


def _offer(edited: list[tuple[Exercise, Content]]) -> None:
    """Beside a row that the club has edited, keep a text that differs from the one it was edited from."""
    for exercise, text in edited:
        exercise.starting_digest = exercise.starting_digest or text.digest
        exercise.newer_text = None if exercise.starting_digest == text.digest else text.plain
    Exercise.objects.bulk_update([e for e, _text in edited], ["starting_digest", "newer_text"], batch_size=100)


def _check_names(rows: list[StartingExercise], present: list[Exercise]) -> None:
    """A name that the club gave to another exercise stays the club's."""
    written = {row.key for row in rows}
    taken = {e.search_key for e in present if e.origin_key not in written}
    for row in rows:
        if fold(row.name) in taken:
            sentence = f"the club has another exercise called “{row.name}”; rename that one first."
            raise LibraryError(row.file, row.key, sentence)
