"""Guardians of a row against those the club has: found by name, shared between brothers and sisters."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from django.utils.translation import gettext as _

from coachhub.base.changes import Change
from coachhub.base.tables.table import tidy
from coachhub.base.text import fold
from coachhub.people.roster.known import GuardianFact, Known, share_keys
from coachhub.people.roster.rows import GuardianCells


@dataclass(frozen=True, slots=True)
class GuardianStep:
    """`pk` None: a new guardian. `link` None: the athlete gets this guardian. The rest is how it shall read after."""

    pk: int | None
    link: int | None
    name: str
    phone: str
    email: str
    relation: str


def guardian_steps(
    rows: Iterable[GuardianCells], athlete: int | None, known: Known
) -> tuple[tuple[GuardianStep, ...], list[Change]]:
    own = list(known.guardians.get(athlete, [])) if athlete is not None else []
    named = {fact.pk for fact in own}
    steps: list[GuardianStep] = []
    changes: list[Change] = []
    for cells in rows:
        fact = next((fact for fact in own if fold(fact.name) == fold(cells.name)), None)
        if fact is None:
            step = _new_link(cells, known)
            if step.pk is None or step.pk not in named:
                steps.append(step)
                changes.append(Change(_("guardian"), "", cells.name))
            continue
        own.remove(fact)
        changed = _changes(fact, cells)
        if changed:
            steps.append(_merged(fact, cells))
            changes.extend(changed)
    return tuple(steps), changes


def _new_link(cells: GuardianCells, known: Known) -> GuardianStep:
    fact = next((known.guardian_by_key[key] for key in share_keys(cells) if key in known.guardian_by_key), None)
    if fact is None:
        return GuardianStep(None, None, cells.name, cells.phone, cells.email, cells.relation)
    phone, email = cells.phone or fact.phone, cells.email or fact.email
    return GuardianStep(fact.pk, None, fact.name, phone, email, cells.relation)


def _merged(fact: GuardianFact, cells: GuardianCells) -> GuardianStep:
    """An empty cell changes nothing; the club's spelling of the name stays."""
    return GuardianStep(
        fact.pk,
        fact.link,
        fact.name,
        cells.phone or fact.phone,
        cells.email or fact.email,
        cells.relation or fact.relation,
    )


def _changes(fact: GuardianFact, cells: GuardianCells) -> list[Change]:
    pairs = [
        (_("phone"), fact.phone, cells.phone),
        (_("e-mail"), fact.email, cells.email),
        (_("relation"), fact.relation, cells.relation),
    ]
    return [
        Change(_("%(part)s of %(name)s") % {"part": part, "name": fact.name}, before, after)
        for part, before, after in pairs
        if after and tidy(before) != after
    ]
