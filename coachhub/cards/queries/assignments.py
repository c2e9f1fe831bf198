"""The cards of one assignment, each with where it stands."""

from __future__ import annotations

from django.db.models import Exists, OuterRef, QuerySet, Subquery

from coachhub.base.actor import Actor
from coachhub.cards.models import Assignment, Attendance, Card, CardCopy, CardRevision
from coachhub.people.models import RedFlag


def cards_with_state(actor: Actor, assignment: Assignment) -> QuerySet[Card]:
    """By name, each with `attendance_status`, `copy_number` (newest copy nobody answered for), `reason` and `waits`."""
    attendance = Attendance.objects.filter(card=OuterRef("pk")).order_by("-pk")
    copies = CardCopy.objects.filter(card=OuterRef("pk"), answer=None).order_by("-revision_number", "-pk")
    revisions = CardRevision.objects.filter(card=OuterRef("pk"), number=OuterRef("revision_number"))
    flags = RedFlag.objects.filter(athlete=OuterRef("athlete"), cleared_at=None)
    return (
        Card.objects.visible_to(actor)
        .filter(assignment=assignment)
        .select_related("athlete")
        .annotate(
            attendance_status=Subquery(attendance.values("status")[:1]),
            copy_number=Subquery(copies.values("revision_number")[:1]),
            reason=Subquery(revisions.values("reason")[:1]),
            waits=Exists(flags),
        )
        .order_by("athlete__search_key", "pk")
    )
