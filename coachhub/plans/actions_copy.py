"""Copies: a block beside itself, a session into a plan, a plan to a squad. A copy has rows of its own throughout."""

from __future__ import annotations

from collections.abc import Iterable
from copy import copy
from typing import Any, TypeVar

from django.core.exceptions import PermissionDenied
from django.db import transaction
from django.db.models import Model

from coachhub.base.actor import Actor
from coachhub.people.models import Squad
from coachhub.plans.actions import count_change, renumber, require_plan, require_squad, siblings
from coachhub.plans.models import (
    CircuitGroup,
    Plan,
    Prescription,
    PrescriptionSwap,
    PrescriptionWeek,
    Segment,
    Session,
)

Row = TypeVar("Row", bound=Model)


@transaction.atomic
def duplicate_group(*, actor: Actor, group: CircuitGroup) -> CircuitGroup:
    """The same block once more, right after it."""
    count_change(actor=actor, session_id=group.segment.session_id)
    added = _like(group)
    _copy_lines({group.pk: added}, later_by=0)
    rows = siblings(group)[0]
    rows.remove(added)
    rows.insert(rows.index(group) + 1, added)
    renumber(rows=rows)
    return added


@transaction.atomic
def copy_session(
    *, actor: Actor, session: Session, plan: Plan, name: str, day: int, week_from: int, week_to: int
) -> Session:
    """Into this plan, or another; what differs by week moves along with its first week."""
    require_plan(actor, plan)
    if not Session.objects.visible_to(actor).filter(pk=session.pk).exists():
        raise PermissionDenied
    return _copy_session(session, plan=plan, name=name, day=day, week_from=week_from, week_to=week_to)


@transaction.atomic
def copy_plan(*, actor: Actor, plan: Plan, squad: Squad | None, name: str) -> Plan:
    """The plan with every session in use, for a squad; it remembers what it was copied from."""
    require_squad(actor, squad)
    if not Plan.objects.visible_to(actor).filter(pk=plan.pk).exists():
        raise PermissionDenied
    added = _like(plan, name=name, squad=squad, copied_from=plan, created_by_id=actor.user_id, archived_at=None)
    for session in plan.sessions.live():
        _copy_session(session, plan=added)
    return added


def _copy_session(session: Session, **changes: Any) -> Session:
    added = _like(session, revision=1, archived_at=None, **changes)
    groups: dict[int, CircuitGroup] = {}
    for segment in Segment.objects.filter(session=session):
        part = _like(segment, session=added)
        groups |= {group.pk: _like(group, segment=part) for group in segment.groups.all()}
    _copy_lines(groups, later_by=added.week_from - session.week_from)
    weeks = PrescriptionWeek.objects.filter(prescription__group__segment__session=added)
    weeks.exclude(week__range=(added.week_from, added.week_to)).delete()
    return added


def _copy_lines(groups: dict[int, CircuitGroup], *, later_by: int) -> None:
    """The lines of each block, by its key, into its copy, with pairs, swaps and weeks."""
    lines = {row.pk: row for row in Prescription.objects.filter(group__in=groups)}
    added = {pk: _like(row, group=groups[row.group_id], pair_with=None) for pk, row in lines.items()}
    for pk, row in lines.items():
        if row.pair_with_id in added:
            added[pk].pair_with = added[row.pair_with_id]
            added[pk].save(update_fields=["pair_with"])
    _belongings(PrescriptionSwap.objects.filter(prescription__in=lines), added)
    weeks = list(PrescriptionWeek.objects.filter(prescription__in=lines))
    for value in weeks:
        value.week += later_by
    _belongings([value for value in weeks if 1 <= value.week <= 52], added)


def _belongings(rows: Iterable[Any], added: dict[int, Prescription]) -> None:
    for row in rows:
        _like(row, prescription=added[row.prescription_id])


def _like(row: Row, **changes: Any) -> Row:
    """A new row with the values of this one, except for the changes."""
    added = copy(row)
    added.pk = None
    for name, value in changes.items():
        setattr(added, name, value)
    added.save()
    return added
