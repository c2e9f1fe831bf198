"""Sessions that somebody missed, and whether they have the same one on a later day."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any

from django.db.models import OuterRef, QuerySet, Subquery

from coachhub.base.actor import Actor
from coachhub.cards.models import Attendance, AttendanceStatus, Card


@dataclass(frozen=True, slots=True)
class Missed:
    """`again_on`: the day to which it was moved, None where it was not."""

    athlete_id: int
    name: str
    session_id: int
    session: str
    week: int
    on_date: date
    again_on: date | None


def missed_in(actor: Actor, squad_id: int, first: date, last: date) -> list[Missed]:
    """Return the squad's cards of those days that say "absent" and that nobody has begun, oldest first. One query."""
    newest = Attendance.objects.filter(card=OuterRef("pk")).order_by("-pk")
    again = Card.objects.filter(
        athlete=OuterRef("athlete"),
        assignment__session=OuterRef("assignment__session"),
        assignment__week=OuterRef("assignment__week"),
        assignment__on_date__gt=OuterRef("assignment__on_date"),
        assignment__cancelled_at=None,
    ).order_by("assignment__on_date")
    cards = Card.objects.visible_to(actor).filter(
        assignment__squad=squad_id, assignment__on_date__range=(first, last), started_at=None
    )
    rows: QuerySet[Any] = (
        cards.annotate(
            said=Subquery(newest.values("status")[:1]), again_on=Subquery(again.values("assignment__on_date")[:1])
        )
        .filter(said=AttendanceStatus.ABSENT)
        .select_related("athlete", "assignment__session")
        .order_by("assignment__on_date", "athlete__search_key", "pk")
    )
    return [
        Missed(
            row.athlete_id,
            row.athlete.name,
            row.assignment.session_id,
            row.assignment.session.name,
            row.assignment.week,
            row.assignment.on_date,
            row.again_on,
        )
        for row in rows
    ]
