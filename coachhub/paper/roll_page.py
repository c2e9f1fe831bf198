"""Who is there: a list to tick by pen."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from django.utils.translation import gettext as _

from coachhub.cards.sheet import Sheet
from coachhub.paper.squad_page import SquadHead
from coachhub.people.models import Guardian


@dataclass(frozen=True, slots=True)
class RollRow:
    """`phones`: of a child's guardians, on the staff's list only."""

    number: int
    name: str
    phones: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Roll:
    head: SquadHead
    is_staff: bool
    rows: tuple[RollRow, ...]


def roll(sheets: Sequence[Sheet], guardians: Mapping[int, list[tuple[Guardian, str]]] | None, as_of: datetime) -> Roll:
    """`guardians` by athlete, None for the list that lies open."""
    rows = tuple(
        RollRow(
            number,
            sheet.athlete_name,
            _phones(sheet, guardians.get(sheet.athlete_id, [])) if guardians is not None else (),
        )
        for number, sheet in enumerate(sheets, 1)
    )
    return Roll(SquadHead.of(sheets, as_of), guardians is not None, rows)


def _phones(sheet: Sheet, guardians: Sequence[tuple[Guardian, str]]) -> tuple[str, ...]:
    if not sheet.is_minor:
        return ()
    if not guardians:
        return (_("no guardian noted"),)
    return tuple(
        f"{guardian.name}{f' ({relation})' if relation else ''} {guardian.phone or '–'}"
        for guardian, relation in guardians
    )
