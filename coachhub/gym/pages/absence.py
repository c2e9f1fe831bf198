"""When the athlete is away."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.season.queries_absence import absences_from


@dataclass(frozen=True, slots=True)
class AbsenceLine:
    pk: int
    from_on: date
    to_on: date
    why: str


@dataclass(frozen=True, slots=True)
class AbsencePage:
    lines: list[AbsenceLine]

    @classmethod
    def of(cls, actor: Actor) -> AbsencePage:
        rows = absences_from(actor, today())
        return cls([AbsenceLine(row.pk, row.from_on, row.to_on, str(row.get_reason_display())) for row in rows])
