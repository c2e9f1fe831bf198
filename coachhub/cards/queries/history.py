"""What an athlete has done in an exercise, each number traceable to the entry it came from."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from uuid import UUID

from django.db.models import Count, Max

from coachhub.cards.models import SetEntry
from coachhub.cards.queries.athlete_facts import counting_entries
from coachhub.library.models import Exercise


@dataclass(frozen=True, slots=True)
class HistoryRow:
    """One set as it counts, and how often it was corrected."""

    entry: SetEntry
    quality: str
    corrections: int


@dataclass(frozen=True, slots=True)
class History:
    exercise: Exercise
    rows: tuple[HistoryRow, ...]

    @property
    def days(self) -> list[tuple[date, list[HistoryRow]]]:
        """Rows by day, the latest first."""
        found: dict[date, list[HistoryRow]] = {}
        for row in self.rows:
            found.setdefault(row.entry.on_date, []).append(row)
        return sorted(found.items(), reverse=True)


def history(athlete_id: int, exercise: Exercise) -> History:
    """Return every set that counts, oldest first."""
    entries = counting_entries([athlete_id], [exercise.pk])
    before = _superseded_by([entry.card_id for entry in entries])
    rows = tuple(HistoryRow(entry, _quality(entry), _corrections(entry, before)) for entry in entries)
    return History(exercise, rows)


def exercises_done(athlete_id: int) -> list[tuple[Exercise, int, date]]:
    """Return each exercise with entries, how many there are, and the last day; by name."""
    rows = (
        Exercise.objects.filter(entries__athlete=athlete_id, entries__kind="done")
        .annotate(sets=Count("entries"), last_on=Max("entries__on_date"))
        .order_by("search_key", "pk")
    )
    return [(row, getattr(row, "sets"), getattr(row, "last_on")) for row in rows]  # noqa: B009  annotations


def _quality(entry: SetEntry) -> str:
    marks = entry.marks.all()
    return marks[0].quality if marks else ""


def _superseded_by(card_ids: list[int]) -> dict[UUID, UUID | None]:
    """Return, per correction on these cards, the entry it replaced."""
    rows = SetEntry.objects.filter(card__in=set(card_ids), supersedes_uuid__isnull=False)
    return dict(rows.values_list("uuid", "supersedes_uuid"))


def _corrections(entry: SetEntry, before: dict[UUID, UUID | None]) -> int:
    count, uuid = 0, before.get(entry.uuid)
    while uuid is not None and count < len(before):
        count, uuid = count + 1, before.get(uuid)
    return count
