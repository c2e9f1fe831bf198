"""Write the known bests that a reviewed table asks for: all of them in one transaction, or nothing."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import asdict

from django.db import transaction

from coachhub.base.actor import Actor
from coachhub.base.changes import count_states, digest, to_write, without_doubted
from coachhub.cards.bests.changes import BestWish, review_bests
from coachhub.cards.models import KnownBest
from coachhub.people.actions.drafts import check_unchanged, take_draft
from coachhub.people.models import ImportKind

_BATCH = 500
_FIELDS = ["exercise", "load_value", "load_unit", "reps", "rir_half", "on_date", "source", "noted_by"]


@transaction.atomic
def import_bests(*, actor: Actor, draft_pk: int, seen: str, sure: Collection[str] = ()) -> dict[str, int]:
    """Write the rows that were looked at (`seen` is their digest), without those in error; how many by state.

    A load far above all that is known is written only if its row's number is among `sure`, else left out.
    ValidationError "gone" or "changed": then nothing is written. Cards that are made or renewed later use them.
    """
    table, reading = take_draft(actor, ImportKind.BESTS, draft_pk)
    outcomes = review_bests(actor, table, reading)
    check_unchanged(seen, digest(outcomes))
    taken = without_doubted(outcomes, sure)
    wishes = to_write(taken)
    rows = [_row(wish, actor) for wish in wishes]
    KnownBest.objects.bulk_create([row for row in rows if row.pk is None], batch_size=_BATCH)
    KnownBest.objects.bulk_update([row for row in rows if row.pk is not None], _FIELDS, batch_size=_BATCH)
    counts = count_states(taken)
    return {**counts, "error": counts["error"] + len(outcomes) - len(taken)}


def _row(wish: BestWish, actor: Actor) -> KnownBest:
    fields = {name: value for name, value in asdict(wish).items() if name != "pk"}
    return KnownBest(pk=wish.pk, noted_by_id=actor.require_user_id(), **fields)
