"""Known bests as lines for a spreadsheet: the same columns that an import reads."""

from __future__ import annotations

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.cards.bests.changes import plain_number
from coachhub.cards.bests.columns import COLUMNS
from coachhub.cards.bests.known import bests_of
from coachhub.cards.models import KnownBest
from coachhub.people.models import Athlete, Squad


def best_lines(actor: Actor, squad: Squad | None) -> list[list[str]]:
    """Header first; of live athletes that the actor sees, in one squad today or all of them."""
    athletes = Athlete.objects.visible_to(actor).live()
    if squad is not None:
        athletes = athletes.in_squads(frozenset([squad.pk]), today())
    return [[str(column.label) for column in COLUMNS], *(_line(row) for row in bests_of(athletes))]


def _line(best: KnownBest) -> list[str]:
    cells = {
        "id": str(best.pk),
        "athlete_id": str(best.athlete_id),
        "athlete": best.athlete.given_name,
        "family_name": best.athlete.family_name,
        "born_on": best.athlete.born_on.isoformat(),
        "exercise": best.exercise.name,
        "load": plain_number(best.load_value),
        "unit": best.load_unit,
        "reps": str(best.reps),
        "rir": f"{best.rir_half / 2:g}",
        "on_date": best.on_date.isoformat(),
        "source": best.get_source_display(),
    }
    return [cells[column.key] for column in COLUMNS]
