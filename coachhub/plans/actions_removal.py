"""Taking a line, a block or a part out of a session, and putting it back as it was.

What comes back has its old keys, so that cards that were made from it still know it.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from django.core import serializers
from django.db import transaction
from django.db.models import Model

from coachhub.base.actor import Actor
from coachhub.base.clock import now
from coachhub.plans.actions import count_change, fit_sets, renumber, siblings
from coachhub.plans.models import (
    CircuitGroup,
    Prescription,
    PrescriptionSwap,
    PrescriptionWeek,
    Removal,
    Segment,
    Session,
)
from coachhub.plans.queries import REMOVAL_KEPT

Row = Segment | CircuitGroup | Prescription


class GoneError(ValueError):
    """It cannot come back: too long ago, back already, or what it stood in is removed itself."""


@transaction.atomic
def remove_segment(*, actor: Actor, segment: Segment, title: str) -> Removal:
    """With all blocks and lines in it."""
    count_change(actor=actor, session_id=segment.session_id)
    groups = list(segment.groups.all())
    return _remove([*Segment.objects.filter(pk=segment.pk), *groups, *_with_lines(groups)], segment.session_id, title)


@transaction.atomic
def remove_group(*, actor: Actor, group: CircuitGroup, title: str) -> Removal:
    """With all lines in it."""
    session_id = group.segment.session_id
    count_change(actor=actor, session_id=session_id)
    return _remove([*CircuitGroup.objects.filter(pk=group.pk), *_with_lines([group])], session_id, title)


@transaction.atomic
def remove_prescription(*, actor: Actor, prescription: Prescription, title: str) -> Removal:
    session_id = prescription.group.segment.session_id
    count_change(actor=actor, session_id=session_id)
    lines = list(Prescription.objects.filter(pk=prescription.pk))
    return _remove([*lines, *_belongings(lines)], session_id, title)


def _with_lines(groups: Iterable[CircuitGroup]) -> list[Model]:
    lines = list(Prescription.objects.filter(group__in=list(groups)))
    return [*lines, *_belongings(lines)]


def _belongings(lines: list[Prescription]) -> list[Model]:
    swaps = PrescriptionSwap.objects.filter(prescription__in=lines)
    return [*swaps, *PrescriptionWeek.objects.filter(prescription__in=lines)]


def _remove(rows: list[Model], session_id: int, title: str) -> Removal:
    """Keep the rows, then delete the first, which takes the others with it; GoneError if somebody was quicker."""
    if not rows:
        raise GoneError
    Removal.objects.filter(removed_at__lt=now() - REMOVAL_KEPT).delete()
    lines = [one.pk for one in rows if isinstance(one, Prescription)]
    pairs = Prescription.objects.filter(pair_with__in=lines).exclude(pk__in=lines)
    removal = Removal.objects.create(
        session_id=session_id,
        title=title[:120],
        rows=json.loads(serializers.serialize("json", rows)),
        pairs=[list(pair) for pair in pairs.values_list("pk", "pair_with")],
        removed_at=now(),
    )
    rows[0].delete()
    return removal


@transaction.atomic
def restore(*, actor: Actor, removal: Removal) -> Row:
    """Put it back where it stood and return it; GoneError where that cannot be."""
    count_change(actor=actor, session_id=removal.session_id)
    is_first = Removal.objects.filter(pk=removal.pk, removed_at__gte=now() - REMOVAL_KEPT).delete()[0]
    rows: list[Any] = [found.object for found in serializers.deserialize("python", removal.rows)]
    first: Row = rows[0]
    if not is_first or not _stands(first, removal.session_id):
        raise GoneError
    lines = [one for one in rows if isinstance(one, Prescription)]
    _drop_lost_pairs(lines)
    for one in rows:
        one.save()
    for pk, other in removal.pairs:
        Prescription.objects.filter(pk=pk, pair_with=None, group__prescriptions=other).update(pair_with=other)
    renumber(rows=siblings(first)[0])
    if isinstance(first, Prescription):
        fit_sets(group=first.group)
    return first


def _stands(row: Row, session_id: int) -> bool:
    """Whether what the row belongs to is still in the session."""
    if isinstance(row, Segment):
        return Session.objects.filter(pk=session_id).exists()
    if isinstance(row, CircuitGroup):
        return Segment.objects.filter(pk=row.segment_id, session=session_id).exists()
    return CircuitGroup.objects.filter(pk=row.group_id, segment__session=session_id).exists()


def _drop_lost_pairs(lines: list[Prescription]) -> None:
    """A partner that was removed meanwhile is left behind."""
    named = {line.pair_with_id for line in lines if line.pair_with_id is not None}
    there = set(Prescription.objects.filter(pk__in=named).values_list("pk", flat=True)) | {line.pk for line in lines}
    for line in lines:
        if line.pair_with_id not in there:
            line.pair_with = None
