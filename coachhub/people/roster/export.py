"""A roster as lines for a spreadsheet: the same columns that an import reads."""

from __future__ import annotations

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.people.models import Athlete, Squad
from coachhub.people.roster.changes import cell_text
from coachhub.people.roster.columns import COLUMNS, FIELDS, GUARDIANS
from coachhub.people.roster.known import Known, load_known


def roster_lines(actor: Actor, squad: Squad | None) -> list[list[str]]:
    """Header first; live athletes by name, of one squad or all that the actor sees."""
    known = load_known(actor, today())
    header = [str(column.label) for column in COLUMNS]
    rows = [row for row in known.athletes.values() if squad is None or squad.pk in known.members[row.pk]]
    return [header, *(_line(row, known) for row in rows)]


def _line(athlete: Athlete, known: Known) -> list[str]:
    cells = {key: cell_text(key, getattr(athlete, key)) for key in FIELDS}
    cells["id"] = str(athlete.pk)
    cells["squad"] = "; ".join(name for pk, name in known.squads.items() if pk in known.members[athlete.pk])
    for begin, guardian in zip(GUARDIANS, known.guardians.get(athlete.pk, []), strict=False):
        for part in ("name", "phone", "email", "relation"):
            cells[f"{begin}_{part}"] = getattr(guardian, part)
    return [cells.get(column.key, "") for column in COLUMNS]
