"""What was changed at the door and is in force."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import Any

from django.db.models import Q

from coachhub.cards.models import DoorChange
from coachhub.coaching.door import DoorStep


def steps_of(stored: Iterable[dict[str, Any]]) -> tuple[DoorStep, ...]:
    return tuple(DoorStep(**step) for step in stored)


def steps_by_card(
    assignment_id: int, card_ids: Collection[int], *, but: int | None = None
) -> dict[int, list[DoorStep]]:
    """Return per card the steps in force, oldest first: everyone's and its own. One query."""
    found: dict[int, list[DoorStep]] = {pk: [] for pk in card_ids}
    rows = DoorChange.objects.filter(assignment=assignment_id, undone_at=None).order_by("pk")
    rows = rows if but is None else rows.exclude(pk=but)
    for card_id, steps in rows.filter(Q(card=None) | Q(card__in=card_ids)).values_list("card_id", "steps"):
        for pk in found if card_id is None else [card_id]:
            found[pk] += steps_of(steps)
    return found


def steps_for_all(assignment_id: int) -> list[DoorStep]:
    """Return what is in force for everyone, and so for somebody who comes now."""
    rows = DoorChange.objects.filter(assignment=assignment_id, undone_at=None, card=None).order_by("pk")
    return [step for steps in rows.values_list("steps", flat=True) for step in steps_of(steps)]
