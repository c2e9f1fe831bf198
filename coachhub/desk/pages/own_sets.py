"""Saved sets of own activation work, and to whom one is given."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.shortcuts import get_object_or_404

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.people.models import Athlete, Squad
from coachhub.people.queries import live_squads
from coachhub.plans.dose import sets_and_dose, show_dose
from coachhub.plans.forms_own import GiveSetForm
from coachhub.plans.models import OwnSet
from coachhub.plans.queries_own import positions_in, sets_in_use


@dataclass(frozen=True, slots=True)
class SetRow:
    row: OwnSet
    items: tuple[tuple[str, str, str], ...]
    """Exercise, dose, goal."""

    @classmethod
    def of(cls, row: OwnSet) -> SetRow:
        items = ((one.exercise.name, show_dose(sets_and_dose(one)), one.goal) for one in row.items.all())
        return cls(row, tuple(items))


@dataclass(frozen=True, slots=True)
class SetsPage:
    rows: tuple[SetRow, ...]
    may_change: bool

    @classmethod
    def of(cls, actor: Actor) -> SetsPage:
        return cls(tuple(SetRow.of(row) for row in sets_in_use()), actor.may_write)


@dataclass(frozen=True, slots=True)
class SetPage:
    """`squad`: whose athletes and positions are offered, the first one where none was chosen."""

    one: SetRow
    squads: tuple[Squad, ...]
    squad: Squad | None

    @classmethod
    def of(cls, actor: Actor, row: OwnSet, squad_pk: str) -> SetPage:
        squads = tuple(live_squads(actor))
        chosen = next((one for one in squads if str(one.pk) == squad_pk), squads[0] if squads else None)
        return cls(SetRow.of(row), squads, chosen)


def find_set(pk: int) -> OwnSet:
    return get_object_or_404(sets_in_use(), pk=pk)


def give_form(data: Any, squad: Squad) -> GiveSetForm:
    members = Athlete.objects.members_of(squad.pk, today())
    return GiveSetForm(data, squad=squad, positions=positions_in(squad, today()), athletes=list(members))
