"""What a tap needs of a card and no more: two queries, because a squad taps all at once."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import Any, Final

from django.db.models import QuerySet

from coachhub.base.actor import Actor
from coachhub.cards.access import may_log
from coachhub.cards.models import Card, CardLine, SetEntry
from coachhub.cards.queries.sheets import LINE, WRITTEN, sheet_group
from coachhub.cards.sheet import SheetGroup
from coachhub.coaching.entries import counting

# What says which entry counts for which slot.
_SLOT: Final = ("uuid", "supersedes_uuid", "seq", "kind", "line_key", "round", "side")
_WHOSE: Final = (
    *("revision__number", "revision__layout", "revision__card__started_at"),
    *("revision__card__athlete__unit", "revision__card__assignment__venue"),
    *("revision__card__assignment__on_date", "revision__card__assignment__cancelled_at"),
)


@dataclass(frozen=True, slots=True)
class Part:
    """Some blocks of a card, as one revision has them, with what is written in the round (or in all of them).

    `rows` are their stored lines by key.
    """

    card: Card
    groups: tuple[SheetGroup, ...]
    rows: Mapping[int | str, CardLine]
    athlete_unit: str

    def group(self, key: str) -> SheetGroup | None:
        return next((group for group in self.groups if group.key == key), None)


def load_part(actor: Actor, pk: int, *, keys: Collection[str], revision: int, number: int | None) -> Part | None:
    """Return those blocks of a card that the actor may log on; None where there is no such thing."""
    rows: list[Any] = list(_lines(pk, revision).filter(group_key__in=keys))
    if not rows:
        return None
    card = rows[0].revision.card
    if card.assignment.cancelled_at is not None or not may_log(actor, card):
        return None
    counted = counting(_entries(pk, [row.line_key for row in rows], number))
    plans = [plan for plan in rows[0].revision.layout if plan["key"] in keys]
    return Part(
        card=card,
        groups=tuple(sheet_group(plan, rows, counted) for plan in plans),
        rows={row.pk: row for row in rows},
        athlete_unit=card.athlete.unit,
    )


def _lines(pk: int, revision: int) -> QuerySet[CardLine, Any]:
    return (
        CardLine.objects.filter(revision__card=pk, revision__number=revision)
        .select_related("revision__card__athlete", "revision__card__assignment")
        .annotate(written_name=WRITTEN)
        .only(*LINE, *_WHOSE)
        .order_by("position", "pk")
    )


def _entries(pk: int, line_keys: list[str], number: int | None) -> list[SetEntry]:
    rows = SetEntry.objects.filter(card=pk, line_key__in=line_keys).only(*_SLOT).order_by("pk")
    return list(rows.filter(round=number) if number else rows)
