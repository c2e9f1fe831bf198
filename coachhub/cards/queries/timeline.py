"""Everything ever written of an athlete in one exercise, what counts and what does not, traceable to its entry."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import Any, Final
from uuid import UUID

from django.db.models import OuterRef, QuerySet, Subquery

from coachhub.cards.models import Assignment, EntryKind, SetEntry, SetMark
from coachhub.coaching.entries import counting

_SIDES: Final = {"both": 0, "left": 1, "right": 2}


class Standing(StrEnum):
    COUNTS = "counts"
    REPLACED = "replaced"
    RIVAL = "rival"
    TAKEN_BACK = "taken_back"


@dataclass(frozen=True, slots=True)
class TimelineRow:
    """`replaced_by`: the entry that corrects this one."""

    entry: SetEntry
    standing: Standing
    quality: str
    replaced_by: int | None


@dataclass(frozen=True, slots=True)
class TimelineCard:
    """One card's sets; two cards on one day stand one below the other."""

    on_date: date
    assignment: Assignment
    rows: tuple[TimelineRow, ...]


def days_trained(athlete_id: int, exercise_id: int) -> QuerySet[SetEntry, date]:
    """Each day with an entry, the latest first."""
    rows = SetEntry.objects.filter(athlete=athlete_id, exercise=exercise_id).order_by("-on_date")
    return rows.values_list("on_date", flat=True).distinct()


def timeline(athlete_id: int, exercise_id: int, days: Collection[date]) -> list[TimelineCard]:
    """Return the cards of those days, the latest first. Two queries."""
    marks = SetMark.objects.filter(entry=OuterRef("pk")).order_by("-pk")
    entries: list[Any] = list(
        SetEntry.objects.filter(athlete=athlete_id, exercise=exercise_id, on_date__in=list(days))
        .select_related("author__staff", "device", "card__assignment__session", "card__assignment__venue")
        .annotate(quality=Subquery(marks.values("quality")[:1]))
        .order_by("pk")
    )
    replaced = _replaced({entry.card_id for entry in entries})
    by_card: dict[int, list[Any]] = {}
    for entry in entries:
        by_card.setdefault(entry.card_id, []).append(entry)
    cards = [_card(own, replaced) for own in by_card.values()]
    return sorted(cards, key=lambda card: (card.on_date, card.assignment.pk), reverse=True)


def _replaced(card_ids: Collection[int]) -> dict[UUID, int]:
    """Return, per entry that another one replaces, the key of that other one."""
    rows = SetEntry.objects.filter(card__in=card_ids, supersedes_uuid__isnull=False).order_by("pk")
    return {uuid: pk for uuid, pk in rows.values_list("supersedes_uuid", "pk") if uuid is not None}


def _card(entries: Sequence[Any], replaced: dict[UUID, int]) -> TimelineCard:
    standing = [entry for entry in entries if entry.uuid not in replaced]
    counts = {counted.fact.pk for counted in counting(standing).values()}
    rows = [
        TimelineRow(entry, _standing(entry, counts, replaced), entry.quality or "", replaced.get(entry.uuid))
        for entry in sorted(entries, key=lambda e: (e.round, _SIDES[e.side], e.seq, e.pk))
    ]
    return TimelineCard(entries[0].on_date, entries[0].card.assignment, tuple(rows))


def _standing(entry: SetEntry, counts: Collection[int], replaced: dict[UUID, int]) -> Standing:
    if entry.uuid in replaced:
        return Standing.REPLACED
    if entry.kind == EntryKind.VOID:
        return Standing.TAKEN_BACK
    return Standing.COUNTS if entry.pk in counts else Standing.RIVAL
