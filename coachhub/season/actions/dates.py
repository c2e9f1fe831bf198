"""Trainings, holidays, tests, gym slots, an athlete's own dates; of a series one day, or all from a day on."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, time, timedelta
from typing import Any, TypedDict, TypeVar, Unpack, cast

from django.core.exceptions import ValidationError
from django.db import models, transaction
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from coachhub.base.actor import Actor
from coachhub.base.clock import now
from coachhub.coaching.series import has_days
from coachhub.library.models import Venue
from coachhub.people.audit import record
from coachhub.people.models import Athlete, Club, Squad
from coachhub.season.access import require_dates
from coachhub.season.models import GymSlot, Happening, SkippedDay, Weekday

Dated = Happening | GymSlot
AnyDated = TypeVar("AnyDated", bound=Dated)


class Scope(models.TextChoices):
    ONE = "one", gettext_lazy("only this day")
    FROM = "from", gettext_lazy("this day and all later ones")


class ChangedMeanwhileError(ValidationError):
    """The series no longer has this day: somebody was quicker, or the form was sent twice."""

    def __init__(self) -> None:
        super().__init__(
            _("This day is no longer in the series. Look at the calendar: it may be done already."), "gone"
        )


class HappeningValues(TypedDict, total=False):
    kind: str
    name: str
    place: str
    from_on: date
    to_on: date | None
    weekdays: int
    every_weeks: int
    starts_at: time | None
    minutes: int | None


class SlotValues(TypedDict):
    venue: Venue
    weekday: int
    starts_at: time
    minutes: int
    from_on: date
    to_on: date | None


@transaction.atomic
def add_happening(
    *, actor: Actor, squad: Squad | None = None, athlete: Athlete | None = None, **values: Unpack[HappeningValues]
) -> Happening:
    """Of a squad or of an athlete. Sent twice, it is one."""
    require_dates(actor, squad_id=squad.pk if squad else None, athlete_id=athlete.pk if athlete else None)
    return _add(actor, Happening(squad=squad, athlete=athlete, **values), {"cancelled_at": None})


@transaction.atomic
def add_slot(*, actor: Actor, squad: Squad, **values: Unpack[SlotValues]) -> GymSlot:
    """Sent twice, it is one."""
    require_dates(actor, squad_id=squad.pk)
    return _add(actor, GymSlot(squad=squad, **values), {})


@transaction.atomic
def change_dates(*, actor: Actor, row: AnyDated, on_date: date, scope: Scope, values: dict[str, Any]) -> AnyDated:
    """Return the row that now holds the day. `values` as in `add_happening` or `add_slot`.

    One day of a series becomes a date of its own; all from a day on become a series of their own, called-off days with
    them. ChangedMeanwhileError where the series no longer has the day.
    """
    _require(actor, row)
    row = _locked(row, on_date)
    if not row.is_series or (scope is Scope.FROM and _is_first(row, on_date)):
        row.change(**values)
        record(actor, "edited", row)
        return row
    if scope is Scope.ONE:
        _skip(row, on_date, is_cancelled=False)
        values = {**values, **_as_single(row, values.get("from_on", on_date))}
        return _add(actor, _twin(row, values), {})
    moved = _twin(row, {**values, "from_on": max(values.get("from_on", on_date), on_date)})
    moved.full_clean()
    moved.save()
    row.skipped_days.filter(on_date__gte=on_date).update(**{_link_name(row): moved})
    _end_before(row, on_date)
    record(actor, "edited", moved)
    return moved


@transaction.atomic
def call_off(*, actor: Actor, row: AnyDated, on_date: date, scope: Scope) -> None:
    """One day stays in the calendar, struck through; all from a day on end the series."""
    _require(actor, row)
    row = _locked(row, on_date)
    if scope is Scope.FROM and row.is_series:
        _end(row, on_date)
    elif row.is_series or isinstance(row, GymSlot):
        _skip(row, on_date, is_cancelled=True)
        row.change()
    else:
        row.change(cancelled_at=now())
    record(actor, "called off", row)


@transaction.atomic
def remove_dates(*, actor: Actor, row: AnyDated, on_date: date, scope: Scope) -> None:
    """For what was entered by mistake: nothing of it stays in the calendar."""
    _require(actor, row)
    row = _locked(row, on_date)
    record(actor, "removed", row)
    if scope is Scope.FROM or not row.is_series:
        _end(row, on_date)
    else:
        _skip(row, on_date, is_cancelled=False)
        row.change()


@transaction.atomic
def edit_whole(*, actor: Actor, row: Happening, **values: Unpack[HappeningValues]) -> Happening:
    """An athlete's own date or series as a whole, from its first day on."""
    _require(actor, row)
    row.change(**values)
    record(actor, "edited", row)
    return row


@transaction.atomic
def remove_whole(*, actor: Actor, row: Happening) -> None:
    _require(actor, row)
    record(actor, "removed", row)
    row.delete()


def _require(actor: Actor, row: Dated) -> None:
    athlete_id = row.athlete_id if isinstance(row, Happening) else None
    require_dates(actor, squad_id=row.squad_id, athlete_id=athlete_id)


def _add(actor: Actor, row: AnyDated, more: dict[str, Any]) -> AnyDated:
    """Write it, unless its very twin is there: of two sendings the second finds the first."""
    row.full_clean()
    list(Club.objects.select_for_update())
    told = {f.attname: getattr(row, f.attname) for f in _own_fields(row)}
    # An empty cell is no value to compare with, on either database.
    same = {f"{name}__isnull" if value is None else name: value is None or value for name, value in told.items()}
    known = type(row).objects.filter(**same, **more).first()
    if known is not None:
        return cast(AnyDated, known)
    row.save()
    record(actor, "added", row)
    return row


def _own_fields(row: Dated) -> list[models.Field[Any, Any]]:
    left = ("id", "changed_at", "sequence", "uid", "cancelled_at")
    return [field for field in row._meta.concrete_fields if field.name not in left]  # noqa: SLF001 - public


def _twin(row: AnyDated, values: dict[str, Any]) -> AnyDated:
    own = {field.name: getattr(row, field.name) for field in _own_fields(row)}
    return type(row)(**{**own, **values})


def _locked(row: AnyDated, on_date: date) -> AnyDated:
    """The row as it is now, kept from others; ChangedMeanwhileError where it no longer has the day."""
    found = type(row).objects.select_for_update().filter(pk=row.pk).first()
    if found is None:
        raise ChangedMeanwhileError
    if found.is_series:
        is_moved = found.skipped_days.filter(on_date=on_date, is_cancelled=False).exists()
        if is_moved or not found.series.falls_on(on_date):
            raise ChangedMeanwhileError
    return cast(AnyDated, found)


def _is_first(row: Dated, on_date: date) -> bool:
    """Nothing of the series lies before that day."""
    return not has_days(replace(row.series, to_on=on_date - timedelta(days=1)))


def _skip(row: Dated, on_date: date, *, is_cancelled: bool) -> None:
    of: dict[str, Any] = {_link_name(row): row}
    SkippedDay.objects.update_or_create(**of, on_date=on_date, defaults={"is_cancelled": is_cancelled})


def _link_name(row: Dated) -> str:
    return "slot" if isinstance(row, GymSlot) else "happening"


def _as_single(row: Dated, day: date) -> dict[str, Any]:
    if isinstance(row, GymSlot):
        return {"from_on": day, "to_on": day, "weekday": Weekday(day.weekday())}
    return {"from_on": day, "to_on": day, "weekdays": 0, "every_weeks": 1}


def _end(row: Dated, on_date: date) -> None:
    if row.is_series and not _is_first(row, on_date):
        _end_before(row, on_date)
    else:
        row.delete()


def _end_before(row: Dated, on_date: date) -> None:
    row.change(to_on=on_date - timedelta(days=1))
