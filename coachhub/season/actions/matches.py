"""Matches, and who played how long."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, time
from typing import TypedDict, Unpack

from django.core.exceptions import PermissionDenied, ValidationError
from django.db import transaction
from django.db.models import QuerySet
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.base.clock import now
from coachhub.people.audit import record
from coachhub.people.models import Athlete, Squad
from coachhub.season.access import require_dates
from coachhub.season.models import MatchDay, MatchMinutes


class MatchValues(TypedDict):
    on_date: date
    starts_at: time | None
    opponent: str
    is_home: bool


@transaction.atomic
def add_match(*, actor: Actor, squad: Squad, **values: Unpack[MatchValues]) -> MatchDay:
    """Sent twice, it is one match; the same one that was called off takes place again."""
    require_dates(actor, squad_id=squad.pk)
    list(Squad.objects.select_for_update().filter(pk=squad.pk))
    known = _same(squad.pk, values).first()
    if known is not None:
        known.change(is_home=values["is_home"], cancelled_at=None)
        return known
    match = MatchDay(squad=squad, **values)
    match.full_clean()
    match.save()
    record(actor, "added", match)
    return match


@transaction.atomic
def edit_match(*, actor: Actor, match: MatchDay, **values: Unpack[MatchValues]) -> MatchDay:
    """ValidationError where the squad has this very match already."""
    require_dates(actor, squad_id=match.squad_id)
    if _same(match.squad_id, values).exclude(pk=match.pk).exists():
        raise ValidationError(_("The squad has this match already."), code="twice")
    match.change(**values)
    record(actor, "edited", match)
    return match


def _same(squad_id: int, values: MatchValues) -> QuerySet[MatchDay]:
    rows = MatchDay.objects.filter(squad=squad_id, on_date=values["on_date"], opponent=values["opponent"])
    # An empty time is no value to compare with.
    return rows.filter(starts_at=values["starts_at"]) if values["starts_at"] else rows.filter(starts_at=None)


@transaction.atomic
def cancel_match(*, actor: Actor, match: MatchDay, is_cancelled: bool = True) -> None:
    """It stays in the calendar, struck through; False lets it take place again."""
    require_dates(actor, squad_id=match.squad_id)
    match.change(cancelled_at=now() if is_cancelled else None)
    record(actor, "called off" if is_cancelled else "put back", match)


@transaction.atomic
def remove_match(*, actor: Actor, match: MatchDay) -> None:
    """Only one that was entered by mistake: ValidationError where somebody's minutes stand on it."""
    require_dates(actor, squad_id=match.squad_id)
    if match.minutes_played.exists():
        raise ValidationError(_("Minutes are noted for this match; call it off instead."), code="played")
    record(actor, "removed", match)
    match.delete()


@transaction.atomic
def set_minutes(*, actor: Actor, match: MatchDay, minutes: Mapping[int, int | None]) -> None:
    """By athlete: minutes played; None takes them away. PermissionDenied for an athlete whom the actor does not see."""
    require_dates(actor, squad_id=match.squad_id)
    if Athlete.objects.visible_to(actor).filter(pk__in=minutes).count() != len(minutes):
        raise PermissionDenied
    match.minutes_played.filter(athlete__in=[pk for pk, told in minutes.items() if told is None]).delete()
    MatchMinutes.objects.bulk_create(
        [
            MatchMinutes(match_day=match, athlete_id=pk, minutes=told)
            for pk, told in minutes.items()
            if told is not None
        ],
        update_conflicts=True,
        unique_fields=["match_day", "athlete"],
        update_fields=["minutes"],
    )
    record(actor, "noted minutes of", match)
