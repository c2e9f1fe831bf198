"""Who is away from when to when; cards of those days say so, whether they are there already or made later."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from typing import Final

from django.core.exceptions import PermissionDenied, ValidationError
from django.db import transaction
from django.db.models import OuterRef, QuerySet, Subquery
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.base.clock import now
from coachhub.cards.models import Attendance, AttendanceStatus, Card
from coachhub.people.audit import record
from coachhub.people.models import Athlete
from coachhub.season.access import may_write_athlete
from coachhub.season.models import Absence

LONGEST: Final = timedelta(days=366)


@transaction.atomic
def mark_absent(*, actor: Actor, athletes: Sequence[Athlete], from_on: date, to_on: date, reason: str) -> list[Absence]:
    """One or many athletes; sent twice, it is one absence each. A card that is begun stays as it is.

    PermissionDenied for anybody but the athlete and their coaches; ValidationError for days that make no sense.
    """
    if not all(may_write_athlete(actor, athlete.pk) for athlete in athletes):
        raise PermissionDenied
    if to_on - from_on >= LONGEST:
        raise ValidationError(_("That is longer than a year. Please check the dates."), code="long")
    # Two sendings of one form wait for each other here.
    list(Athlete.objects.select_for_update().filter(pk__in=[athlete.pk for athlete in athletes]).order_by("pk"))
    rows = [_absence(actor, Absence(athlete=a, from_on=from_on, to_on=to_on, reason=reason)) for a in athletes]
    _note(_cards(athletes, from_on, to_on), AttendanceStatus.ABSENT, actor)
    return rows


def _absence(actor: Actor, row: Absence) -> Absence:
    row.full_clean()
    known = Absence.objects.filter(athlete=row.athlete, from_on=row.from_on, to_on=row.to_on, reason=row.reason).first()
    if known is not None:
        return known
    row.save()
    record(actor, "noted", row)
    return row


@transaction.atomic
def end_absence(*, actor: Actor, absence: Absence, back_on: date) -> None:
    """There again on that day; an absence that had not begun by then is taken out. Twice it changes nothing."""
    if not may_write_athlete(actor, absence.athlete_id):
        raise PermissionDenied
    row = Absence.objects.select_for_update().filter(pk=absence.pk, to_on__gte=back_on).first()
    if row is None:
        return
    first, last = max(row.from_on, back_on), row.to_on
    record(actor, "ended", row)
    if row.from_on >= back_on:
        row.delete()
    else:
        row.to_on = back_on - timedelta(days=1)
        row.save()
    cards = _cards([absence.athlete], first, last)
    others = Absence.objects.filter(athlete=absence.athlete, from_on__lte=last, to_on__gte=first)
    for other in others.exclude(pk=absence.pk):
        cards = cards.exclude(assignment__on_date__range=(other.from_on, other.to_on))
    _note(cards, AttendanceStatus.PRESENT, actor)


def note_known_absences(cards: Iterable[Card], on_date: date) -> None:
    """Inside a transaction: new cards of that day, of whom an absence is known."""
    by_athlete = {card.athlete_id: card for card in cards}
    ids = set(_away_on(on_date).filter(athlete__in=by_athlete).values_list("athlete_id", flat=True))
    _write([by_athlete[pk].pk for pk in sorted(ids)], AttendanceStatus.ABSENT, None)


def note_moved(cards: QuerySet[Card], on_date: date, actor: Actor) -> None:
    """Inside a transaction: cards that have come to that day, where others may be away than on the day before."""
    away = _away_on(on_date).values("athlete")
    _note(cards.filter(athlete__in=away), AttendanceStatus.ABSENT, actor)
    _note(cards.exclude(athlete__in=away), AttendanceStatus.PRESENT, actor)


def _away_on(day: date) -> QuerySet[Absence]:
    return Absence.objects.filter(from_on__lte=day, to_on__gte=day)


def _cards(athletes: Iterable[Athlete], first: date, last: date) -> QuerySet[Card]:
    """Live cards of those days that nobody has begun."""
    return Card.objects.filter(
        athlete__in=[athlete.pk for athlete in athletes],
        assignment__on_date__range=(first, last),
        assignment__cancelled_at=None,
        started_at=None,
    )


def _note(cards: QuerySet[Card], status: AttendanceStatus, actor: Actor) -> None:
    """Write it on those of which the other was said last: nobody comes back from where they never were away."""
    newest = Attendance.objects.filter(card=OuterRef("pk")).order_by("-pk")
    said = cards.order_by("pk").values_list("pk", Subquery(newest.values("status")[:1]))
    was_away = status != AttendanceStatus.ABSENT
    ids = [pk for pk, before in said if (before == AttendanceStatus.ABSENT) == was_away]
    _write(ids, status, actor.user_id)


def _write(card_ids: Iterable[int], status: AttendanceStatus, user_id: int | None) -> None:
    noted_at = now()
    Attendance.objects.bulk_create(
        Attendance(card_id=pk, status=status, noted_at=noted_at, noted_by_id=user_id) for pk in card_ids
    )
