"""What waits for an answer from a coach: red flags, pain, review dates that have passed."""

from __future__ import annotations

from datetime import date

from django.db.models import Count, F, OuterRef, Q, QuerySet, Subquery

from coachhub.base.actor import Actor
from coachhub.cards.models import Assignment
from coachhub.people.models import Athlete, AthleteQuerySet, AvailabilityStatus, PainReport, RedFlag, Restriction
from coachhub.people.queries import in_force, status_on


def standing_flags(actor: Actor) -> QuerySet[RedFlag]:
    """Not cleared, of athletes the actor sees; the latest first."""
    mine = Athlete.objects.visible_to(actor).live()
    return RedFlag.objects.filter(athlete__in=mine, cleared_at=None).select_related("athlete")


def open_pains(actor: Actor) -> QuerySet[PainReport]:
    """Not cleared, of athletes the actor sees; the latest first. A score of 0 without soreness asks nothing."""
    mine = Athlete.objects.visible_to(actor).live()
    asks = Q(score__gt=0) | Q(is_sore_only=True)
    return PainReport.objects.filter(asks, athlete__in=mine, cleared_at=None).select_related("athlete")


def still_full(actor: Actor, day: date) -> AthleteQuerySet:
    """Availability says full, and a restriction, pain or red flag stands that is newer than that word.

    Each with `held_at`, `hurt_at` and `flagged_at`: the newest of its kind. Full said once more answers the question.
    """
    own, said = OuterRef("pk"), Q(said_at=None)
    held = Restriction.objects.standing().filter(athlete=own, starts_on__lte=day).order_by("-set_at")
    hurts = PainReport.objects.filter(athlete=own, cleared_at=None, score__gt=0, is_sore_only=False)
    flags = RedFlag.objects.filter(athlete=own, cleared_at=None)
    rows = (
        Athlete.objects.visible_to(actor)
        .live()
        .annotate(
            status=status_on("pk", day),
            said_at=Subquery(in_force("pk", day).values("set_at")[:1]),
            held_at=Subquery(held.values("set_at")[:1]),
            hurt_at=Subquery(hurts.order_by("-reported_at").values("reported_at")[:1]),
            flagged_at=Subquery(flags.order_by("-reported_at").values("reported_at")[:1]),
        )
    )
    asks = Q()
    for name in ("held_at", "hurt_at", "flagged_at"):
        asks |= Q(**{f"{name}__isnull": False}) & (said | Q(**{f"{name}__gt": F("said_at")}))
    return rows.filter(asks, status=AvailabilityStatus.FULL)


def reviews_due(actor: Actor, day: date) -> QuerySet[Restriction]:
    """In force, and their day to be looked at again has come: a question, never an end."""
    mine = Athlete.objects.visible_to(actor).live()
    due = Restriction.objects.standing().filter(athlete__in=mine, review_on__lte=day)
    return due.select_related("athlete", "exercise").order_by("review_on", "pk")


def assignments_between(actor: Actor, first: date, last: date) -> QuerySet[Assignment]:
    """Live assignments of those days in their order, with how many cards each has: `given`, `begun`, `stale`."""
    is_older = Q(cards__session_revision__lt=F("session__revision")) | Q(cards__is_behind=True)
    old = is_older & Q(cards__started_at=None)
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
