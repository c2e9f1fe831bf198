"""What the forms of the calendar begin with, and where they lead back to."""

from __future__ import annotations

from datetime import date
from typing import Any, TypeVar

from django.http import Http404, QueryDict
from django.urls import reverse

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.desk.pages.calendar_season import day_of
from coachhub.season.access import require_dates
from coachhub.season.actions import Dated, Scope
from coachhub.season.forms import HappeningForm, Shape, SlotForm
from coachhub.season.models import OWN_KINDS, SQUAD_KINDS, GymSlot, Happening, HappeningKind, MatchDay

AnyRow = TypeVar("AnyRow", bound=MatchDay | GymSlot | Happening)


def season_url(squad_id: int | None = None, on: date | None = None) -> str:
    told = {"squad": squad_id, "on": on.isoformat() if on else None}
    query = "&".join(f"{name}={value}" for name, value in told.items() if value)
    return reverse("desk:season") + (f"?{query}" if query else "")


def after_date(row: Dated, on: date) -> str:
    """The athlete's own dates, or the squad's calendar at that day."""
    if isinstance(row, Happening) and row.athlete_id:
        return reverse("desk:own_dates", kwargs={"pk": row.athlete_id})
    return season_url(row.squad_id, on)


def new_initial(query: QueryDict, squads: Any, day_field: str) -> dict[str, Any]:
    """The day and squad that the calendar was open at; the only squad where there is no other."""
    rows = list(squads)
    chosen = next((row for row in rows if str(row.pk) == query.get("squad")), rows[0] if len(rows) == 1 else None)
    day = day_of(query.get("on", "")) or today()
    kind = query.get("kind", "")
    told: dict[str, Any] = {"squad": chosen, day_field: day, "weekday": day.weekday()}
    return told | ({"kind": kind} if kind in HappeningKind.values else {})


def find_for_writing(actor: Actor, row: AnyRow) -> AnyRow:
    """403 for who sees it and may not change it."""
    athlete_id = row.athlete_id if isinstance(row, Happening) else None
    require_dates(actor, squad_id=row.squad_id, athlete_id=athlete_id)
    return row


def scope_of(text: str) -> Scope:
    if text not in Scope.values:
        raise Http404
    return Scope(text)


def change_form(row: Dated, on: date, scope: Scope, data: QueryDict | None) -> HappeningForm | SlotForm:
    """What this scope lets be changed, filled in with what stands there on that day."""
    shape = Shape.of(row, scope)
    initial = {"from_on": on} if row.is_series else {}
    if isinstance(row, GymSlot):
        return SlotForm(data, instance=row, shape=shape, initial=initial)
    kinds = OWN_KINDS if row.athlete_id else SQUAD_KINDS
    return HappeningForm(data, instance=row, kinds=kinds, shape=shape, initial=initial)
