"""Verbs on what differs from week to week."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.db import transaction

from coachhub.base.actor import Actor
from coachhub.plans.actions import count_change
from coachhub.plans.dose import RANGES, in_week, plain_dose
from coachhub.plans.models import Prescription, PrescriptionWeek, Session

Cells = Mapping[tuple[int, int], Mapping[str, Any]]


@transaction.atomic
def set_weeks(*, actor: Actor, session: Session, cells: Cells) -> bool:
    """Write the cells, by line and week; all None inherits. Whether anything changed, which counts as one change."""
    lines = set(Prescription.objects.filter(group__segment__session=session).values_list("pk", flat=True))
    there = {(row.prescription_id, row.week): row for row in PrescriptionWeek.objects.filter(prescription__in=lines)}
    changed = {cell: values for cell, values in cells.items() if cell[0] in lines and _is_new(there.get(cell), values)}
    if changed:
        count_change(actor=actor, session_id=session.pk)
    for (line, week), values in changed.items():
        if any(value is not None for value in values.values()):
            PrescriptionWeek.objects.update_or_create(prescription_id=line, week=week, defaults=values)
        else:
            PrescriptionWeek.objects.filter(prescription=line, week=week).delete()
    return bool(changed)


def _is_new(row: PrescriptionWeek | None, values: Mapping[str, Any]) -> bool:
    return any(value != getattr(row, name, None) for name, value in values.items())


def drop_unfit_weeks(*, prescription: Prescription, before: Prescription) -> None:
    """After the line was written anew: what its weeks say of another kind of amount or load goes."""
    rows = prescription.week_values.all()
    if prescription.dose_kind != before.dose_kind:
        rows.delete()
        return
    is_same_load = all(
        getattr(prescription, name) == getattr(before, name) for name in ("load_rule", "load_unit", "hands")
    )
    for row in rows:
        if not is_same_load:
            row.load = row.load_high = row.percent = row.percent_high = row.rir_half = None
        if _fits(prescription, row):
            row.save()
        else:
            row.delete()


def _fits(prescription: Prescription, row: PrescriptionWeek) -> bool:
    if row.sets is None and row.rir_half is None and all(getattr(row, low) is None for low, _high in RANGES):
        return False
    try:
        in_week(plain_dose(prescription), row)
    except ValueError:
        return False
    return True
