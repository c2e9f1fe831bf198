"""The phases of a squad, and the one that a day lies in."""

from __future__ import annotations

from datetime import date

from coachhub.base.actor import Actor
from coachhub.coaching.review.phases import Phase
from coachhub.season.models import SeasonPhase


def phases_of(actor: Actor, squad_id: int) -> list[SeasonPhase]:
    """In their order, with their targets."""
    rows = SeasonPhase.objects.visible_to(actor).filter(squad=squad_id)
    return list(rows.prefetch_related("targets"))


def phase_on(squad_id: int, day: date) -> Phase | None:
    """What the checks of a coach weigh a week of the squad against; None outside any phase."""
    rows = SeasonPhase.objects.filter(squad=squad_id, from_on__lte=day, to_on__gte=day)
    row = rows.prefetch_related("targets").first()
    return row.as_phase() if row else None
