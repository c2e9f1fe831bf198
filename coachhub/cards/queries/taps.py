"""What a tap needs of a card and no more: two queries, because a squad taps all at once."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import Any, Final

from coachhub.base.actor import Actor
from coachhub.base.statements import Statement
from coachhub.cards.access import may_log
from coachhub.cards.models import Assignment, Card, CardLine, SetEntry
from coachhub.cards.queries.sheet_rows import LINE
from coachhub.cards.queries.sheets import sheet_group
from coachhub.cards.sheet import SheetGroup
from coachhub.coaching.entries import counting

_LINES: Final = Statement(
    (
        *LINE, "revision__layout", "revision__card__started_at", "revision__card__athlete_id",
        "revision__card__athlete__unit", "revision__card__assignment_id", "revision__card__assignment__venue_id",
        "revision__card__assignment__on_date", "revision__card__assignment__cancelled_at", "revision__card__venue_id",
    ),
    lambda card, revision, groups: CardLine.objects.filter(
        revision__card=card, revision__number=revision, group_key__in=groups
    ).order_by("position", "pk"),
)  # fmt: skip
# What says which entry counts for which slot.
_ENTRIES: Final = Statement(
    ("uuid", "supersedes_uuid", "seq", "kind", "line_id", "line_key", "exercise_id", "round", "side"),
    lambda card, lines: SetEntry.objects.filter(card=card, line_key__in=lines).order_by("pk"),
)


@dataclass(frozen=True, slots=True)
class Part:
    """Some blocks of a card, as one revision has them, with what is written in the round (or in all of them).

    `rows` are their stored lines by key.
    """

    card: Card
    groups: tuple[SheetGroup, ...]
    rows: Mapping[int | str, Any]
    athlete_unit: str

    def group(self, key: str) -> SheetGroup | None:
        return next((group for group in self.groups if group.key == key), None)


def load_part(actor: Actor, pk: int, *, keys: Collection[str], revision: int, number: int | None) -> Part | None:
    """Return those blocks of a card that the actor may log on; None where there is no such thing."""
    rows = _LINES.rows(pk, revision, sorted(set(keys)))
    if not rows:
        return None
    card = _card(pk, rows[0])
    if rows[0].revision__card__assignment__cancelled_at is not None or not may_log(actor, card):
        return None
    entries = _ENTRIES.rows(pk, [row.line_key for row in rows])
    counted = counting([entry for entry in entries if number in (None, entry.round)])
    plans = [plan for plan in rows[0].revision__layout if plan["key"] in keys]
    return Part(
        card=card,
        groups=tuple(sheet_group(plan, rows, counted) for plan in plans),
        rows={row.pk: row for row in rows},
        athlete_unit=rows[0].revision__card__athlete__unit,
    )


def _card(pk: int, row: Any) -> Card:
    """The card, as far as writing on it needs."""
    assignment = Assignment(
        pk=row.revision__card__assignment_id,
        venue_id=row.revision__card__assignment__venue_id,
        on_date=row.revision__card__assignment__on_date,
    )
    return Card(
        pk=pk,
        assignment=assignment,
        athlete_id=row.revision__card__athlete_id,
        started_at=row.revision__card__started_at,
        venue_id=row.revision__card__venue_id,
    )
