"""Write what a reviewed file of dates asks for: all of it in one transaction, or nothing."""

from __future__ import annotations

from typing import Any

from django.db import transaction

from coachhub.base.actor import Actor
from coachhub.base.changes import count_states, digest, to_write
from coachhub.base.clock import now
from coachhub.people.actions.drafts import check_unchanged, take_draft
from coachhub.people.audit import record
from coachhub.people.models import ImportKind, Squad
from coachhub.season.files.changes import DateWish, review_dates
from coachhub.season.models import Happening, MatchDay, SkippedDay


@transaction.atomic
def import_dates(*, actor: Actor, draft_pk: int, seen: str) -> dict[str, int]:
    """Write the rows that were looked at (`seen` is their digest), without those in error; how many by state.

    ValidationError "gone" or "changed": then nothing is written.
    """
    table, reading = take_draft(actor, ImportKind.SEASON, draft_pk)
    outcomes = review_dates(actor, table, reading)
    check_unchanged(seen, digest(outcomes))
    wishes = to_write(outcomes)
    matches = _write(MatchDay, [wish for wish in wishes if wish.is_match])
    others = _write(Happening, [wish for wish in wishes if not wish.is_match])
    SkippedDay.objects.bulk_create(
        [SkippedDay(happening=row, on_date=day, is_cancelled=False) for row, wish in others for day in wish.not_on],
        ignore_conflicts=True,
    )
    for squad in Squad.objects.filter(pk__in={wish.squad for _row, wish in (*matches, *others)}):
        record(actor, "imported dates of", squad)
    return count_states(outcomes)


def _write(table: Any, wishes: list[DateWish]) -> list[tuple[Any, DateWish]]:
    stored = table.objects.in_bulk([wish.pk for wish in wishes if wish.pk])
    rows = [stored[wish.pk] if wish.pk else table(squad_id=wish.squad) for wish in wishes]
    for row, wish in zip(rows, wishes, strict=True):
        for name, value in wish.values:
            setattr(row, name, value)
        if wish.is_cancelled is not None:
            row.cancelled_at = now() if wish.is_cancelled else None
        row.changed_at, row.sequence = now(), row.sequence + (1 if wish.pk else 0)
    table.objects.bulk_create([row for row in rows if row.pk is None], batch_size=500)
    names = {name for wish in wishes if wish.pk for name, _value in wish.values}
    if stored:
        table.objects.bulk_update(
            stored.values(), [*sorted(names), "cancelled_at", "changed_at", "sequence"], batch_size=500
        )
    return list(zip(rows, wishes, strict=True))
