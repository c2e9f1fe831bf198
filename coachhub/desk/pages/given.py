"""What was given from a session, beside its writing."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any, Final

from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.cards.queries import given_from
from coachhub.plans.models import Session

SHOWN: Final = 6


@dataclass(frozen=True, slots=True)
class GivenRow:
    assignment_id: int
    on_date: date
    to: str
    cards: int
    stale: int


@dataclass(frozen=True, slots=True)
class GivenPanel:
    """`rows` are the newest; the counts go over all."""

    rows: tuple[GivenRow, ...]
    cards: int
    stale: int
    is_longer: bool

    @classmethod
    def of(cls, actor: Actor, session: Session) -> GivenPanel:
        found = [_row(row) for row in given_from(actor, session)]
        # Cards that are behind come first: they are what may be done about.
        shown = sorted(found, key=lambda row: not row.stale)[:SHOWN]
        return cls(
            rows=tuple(shown),
            cards=sum(row.cards for row in found),
            stale=sum(row.stale for row in found),
            is_longer=len(found) > len(shown),
        )


def _row(row: Any) -> GivenRow:
    """`row`: an assignment with its counts."""
    to = row.squad.name if row.squad else _("single athletes")
    return GivenRow(row.pk, row.on_date, to, row.card_count, row.stale_count)
