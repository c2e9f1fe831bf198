"""Moves the history of the demo to the days it is about: the verbs stamp what they write with the present."""

from __future__ import annotations

from datetime import timedelta

from django.db.models import F, Min, OuterRef, Subquery

from coachhub.cards.models import Assignment, Attendance, Card, CardRevision, SetEntry, SetMark
from coachhub.demo.days import at


def backdate(assignments: list[Assignment]) -> None:
    """Cards were made the evening before, entries arrived as they were written, marks right after."""
    for assignment in assignments:
        made_at = at(assignment.on_date - timedelta(days=1), 18, 30)
        Assignment.objects.filter(pk=assignment.pk).update(created_at=made_at)
        Card.objects.filter(assignment=assignment).update(created_at=made_at)
        CardRevision.objects.filter(card__assignment=assignment).update(made_at=made_at)
        Attendance.objects.filter(card__assignment=assignment).update(noted_at=at(assignment.on_date, 17, 5))
    entries = SetEntry.objects.filter(card__assignment__in=assignments)
    entries.update(received_at=F("client_at") + timedelta(seconds=2))
    first = SetEntry.objects.filter(card=OuterRef("pk")).order_by().values("card").annotate(first=Min("received_at"))
    Card.objects.filter(assignment__in=assignments).update(started_at=Subquery(first.values("first")))
    seen_at = SetEntry.objects.filter(pk=OuterRef("entry")).values("received_at")
    SetMark.objects.filter(entry__card__assignment__in=assignments).update(marked_at=Subquery(seen_at))
