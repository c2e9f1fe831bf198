"""What the staff have to know of a squad beside its cards: the same few queries for one athlete and for thirty."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass, field
from typing import Any, cast

from coachhub.base.actor import Actor
from coachhub.cards.queries import flags_and_pains, restrictions_to_read
from coachhub.people.models import (
    Athlete,
    Consent,
    Guardian,
    Guardianship,
    PainReport,
    Restriction,
    Staff,
    StaffRole,
)
from coachhub.people.queries_care import standing_consents


@dataclass(slots=True)
class Known:
    """Of one athlete. `guardians`: each with the relation; shown of under-18s only."""

    athlete: Athlete
    restrictions: list[Restriction] = field(default_factory=list)
    pains: list[PainReport] = field(default_factory=list)
    consents: list[Consent] = field(default_factory=list)
    guardians: list[tuple[Guardian, str]] = field(default_factory=list)


def known_of(actor: Actor, athlete_ids: Collection[int]) -> dict[int, Known]:
    rows = Athlete.objects.visible_to(actor).filter(pk__in=athlete_ids)
    found = {row.pk: Known(row) for row in rows.prefetch_related(standing_consents("consents"))}
    for known in found.values():
        known.consents = cast(Any, known.athlete).standing_consents
    for restriction in restrictions_to_read(actor).filter(lifted_at=None, athlete__in=found):
        found[restriction.athlete_id].restrictions.append(restriction)
    for pain in flags_and_pains(found)[1]:
        found[pain.athlete_id].pains.append(pain)
    for athlete_id, guardians in guardians_of(found).items():
        found[athlete_id].guardians = guardians
    return found


def guardians_of(athlete_ids: Collection[int]) -> dict[int, list[tuple[Guardian, str]]]:
    found: defaultdict[int, list[tuple[Guardian, str]]] = defaultdict(list)
    rows = Guardianship.objects.filter(athlete__in=athlete_ids, guardian__archived_at=None)
    for row in rows.select_related("guardian").order_by("pk"):
        found[row.athlete_id].append((row.guardian, row.relation))
    return found


def coaches_of(squad_id: int | None) -> list[Staff]:
    """Whom guardians ask: the squad's coaches, then their assistants."""
    roles = (StaffRole.COACH, StaffRole.ASSISTANT)
    rows = Staff.objects.filter(archived_at=None, role__in=roles, squads=squad_id) if squad_id else Staff.objects.none()
    return sorted(rows, key=lambda row: (roles.index(StaffRole(row.role)), row.name))
