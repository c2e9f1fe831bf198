"""What waits for an answer from a coach: red flags, pain, review dates that have passed, copies that are old."""

from __future__ import annotations

from datetime import date

from django.db.models import Count, F, OuterRef, Q, QuerySet, Subquery

from coachhub.base.actor import Actor
from coachhub.cards.models import Assignment, Card, CardCopy
from coachhub.people.models import Athlete, PainReport, RedFlag, Restriction


def standing_flags(actor: Actor) -> QuerySet[RedFlag]:
    """Not cleared, of athletes the actor sees; the latest first."""
    mine = Athlete.objects.visible_to(actor).live()
    return RedFlag.objects.filter(athlete__in=mine, cleared_at=None).select_related("athlete")


def open_pains(actor: Actor) -> QuerySet[PainReport]:
    """Not cleared, of athletes the actor sees; the latest first. A score of 0 without soreness asks nothing."""
    mine = Athlete.objects.visible_to(actor).live()
    asks = Q(score__gt=0) | Q(is_sore_only=True)
    return PainReport.objects.filter(asks, athlete__in=mine, cleared_at=None).select_related("athlete")


def reviews_due(actor: Actor, day: date) -> QuerySet[Restriction]:
    """In force, and their day to be looked at again has come: a question, never an end."""
    mine = Athlete.objects.visible_to(actor).live()
    due = Restriction.objects.standing().filter(athlete__in=mine, review_on__lte=day)
    return due.select_related("athlete", "exercise").order_by("review_on", "pk")


def with_outdated_copy(cards: QuerySet[Card], day: date) -> QuerySet[Card]:
    """Cards of that day and later that have changed since their newest copy, with `copy_kind` and `copy_made_at`."""
    newest = CardCopy.objects.filter(card=OuterRef("pk")).order_by("-revision_number", "-pk")
    return (
        cards.filter(assignment__on_date__gte=day)
        .annotate(
            copy_number=Subquery(newest.values("revision_number")[:1]),
            copy_kind=Subquery(newest.values("kind")[:1]),
            copy_made_at=Subquery(newest.values("made_at")[:1]),
        )
        .filter(copy_number__lt=F("revision_number"))
        .select_related("athlete", "assignment__session")
        .order_by("assignment__on_date", "athlete__search_key", "pk")
    )


def assignments_between(actor: Actor, first: date, last: date) -> QuerySet[Assignment]:
    """Live assignments of those days in their order, with how many cards each has: `given`, `begun`, `stale`."""
    old = Q(cards__session_revision__lt=F("session__revision"), cards__started_at=None)
    return (
        Assignment.objects.visible_to(actor)
        .live()
        .filter(on_date__range=(first, last))
        .select_related("session", "squad", "venue")
        .annotate(
            given=Count("cards"),
            begun=Count("cards", filter=Q(cards__started_at__isnull=False)),
            stale=Count("cards", filter=old),
        )
        .order_by("on_date", "session__name", "pk")
    )
