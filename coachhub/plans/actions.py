"""Verbs on plans, sessions, their parts and blocks. Lines: `actions_lines`, `actions_order`; removing:
`actions_removal`.

Each change of what a session says counts its `revision` up by one, in the same transaction: cards that were made
from an older one can then be found. Who may change it is decided by `editable_by`, in the same statement.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final, Literal

from django.core.exceptions import PermissionDenied
from django.db import transaction
from django.db.models import F, Max

from coachhub.base.actor import Actor
from coachhub.base.clock import now
from coachhub.base.models import SegmentKind
from coachhub.coaching.rounds import Rounds, kept_sets
from coachhub.people.models import Squad
from coachhub.plans.models import CircuitGroup, Plan, Prescription, Segment, Session, SessionRole

Step = Literal[-1, 1]
# What a new session starts with.
USUAL_PARTS: Final = (
    SegmentKind.WARM_UP,
    SegmentKind.ACTIVATION,
    SegmentKind.ATHLETICISM,
    SegmentKind.STRENGTH,
)
ONE_ROUND: Final = Rounds(1, 1)
_PARTICULARS: Final = frozenset({"name", "day", "week_from", "week_to", "slot_minutes", "note", "role", "variant"})
_ORDER: Final = tuple(SegmentKind.values)


def count_change(*, actor: Actor, session_id: int) -> None:
    """Count the revision up; also locks the row, so that two changes at once come one after the other."""
    changed = Session.objects.editable_by(actor).filter(pk=session_id).update(revision=F("revision") + 1)
    if not changed:
        raise PermissionDenied


def differs(*, row: Any, values: dict[str, Any]) -> bool:
    """Put the values on the row; whether any of them is new."""
    changed = [name for name, value in values.items() if getattr(row, name) != value]
    for name in changed:
        setattr(row, name, values[name])
    return bool(changed)


def require_plan(actor: Actor, plan: Plan) -> None:
    if not Plan.objects.editable_by(actor).filter(pk=plan.pk).exists():
        raise PermissionDenied


def require_squad(actor: Actor, squad: Squad | None) -> None:
    may_use = squad is None or actor.sees_all or squad.pk in actor.squad_ids
    if not (actor.may_write and may_use):
        raise PermissionDenied


@transaction.atomic
def add_plan(*, actor: Actor, name: str, squad: Squad | None, weeks: int, note: str = "") -> Plan:
    require_squad(actor, squad)
    plan = Plan(name=name, squad=squad, weeks=weeks, note=note, created_by_id=actor.user_id)
    plan.save()
    return plan


@transaction.atomic
def edit_plan(*, actor: Actor, plan: Plan, name: str, squad: Squad | None, weeks: int, note: str = "") -> None:
    require_plan(actor, plan)
    require_squad(actor, squad)
    if differs(row=plan, values={"name": name, "squad": squad, "weeks": weeks, "note": note}):
        plan.save()


@transaction.atomic
def archive_plan(*, actor: Actor, plan: Plan) -> None:
    """Put it away; its sessions, and cards made from them, stay readable."""
    require_plan(actor, plan)
    plan.archived_at = now()
    plan.save(update_fields=["archived_at"])


@transaction.atomic
def add_session(
    *,
    actor: Actor,
    plan: Plan,
    name: str,
    day: int = 1,
    week_from: int = 1,
    week_to: int = 1,
    slot_minutes: int = 60,
    note: str = "",
    role: str = SessionRole.ANY,
    variant: str = "",
    parts: Sequence[SegmentKind] = (),
) -> Session:
    """An empty session, with empty `parts` to write in if given (see USUAL_PARTS)."""
    require_plan(actor, plan)
    session = Session(
        plan=plan,
        name=name,
        day=day,
        week_from=week_from,
        week_to=week_to,
        slot_minutes=slot_minutes,
        note=note,
        role=role,
        variant=variant,
    )
    session.save()
    Segment.objects.bulk_create(Segment(session=session, kind=kind, position=n) for n, kind in enumerate(parts))
    return session


@transaction.atomic
def edit_session(*, actor: Actor, session: Session, **values: Any) -> None:
    """Change any of name, day, week_from, week_to, slot_minutes, note, role, variant."""
    unknown = values.keys() - _PARTICULARS
    if unknown:
        raise TypeError(f"a session has no {', '.join(sorted(unknown))} to edit")
    if differs(row=session, values=values):
        count_change(actor=actor, session_id=session.pk)
        session.save(update_fields=list(values))


@transaction.atomic
def archive_session(*, actor: Actor, session: Session) -> None:
    count_change(actor=actor, session_id=session.pk)
    session.archived_at = now()
    session.save(update_fields=["archived_at"])


@transaction.atomic
def restore_session(*, actor: Actor, session: Session) -> None:
    """Take back that it was put away."""
    require_plan(actor, session.plan)
    Session.objects.filter(pk=session.pk).update(archived_at=None, revision=F("revision") + 1)


@transaction.atomic
def add_segment(*, actor: Actor, session: Session, kind: SegmentKind, minutes: int | None = None) -> Segment:
    """A part, put where it usually stands: before the first part that comes later in a session."""
    count_change(actor=actor, session_id=session.pk)
    rows = list(session.segments.all())
    later = (n for n, row in enumerate(rows) if _ORDER.index(row.kind) > _ORDER.index(kind))
    segment = Segment(session=session, kind=kind, minutes=minutes, position=0)
    segment.save()
    rows.insert(next(later, len(rows)), segment)
    renumber(rows=rows)
    return segment


@transaction.atomic
def edit_segment(*, actor: Actor, segment: Segment, kind: SegmentKind, minutes: int | None) -> None:
    if differs(row=segment, values={"kind": kind.value, "minutes": minutes}):
        count_change(actor=actor, session_id=segment.session_id)
        segment.save()


@transaction.atomic
def add_group(*, actor: Actor, segment: Segment, rounds: Rounds = ONE_ROUND, **values: Any) -> CircuitGroup:
    """A block at the end of the part; `values` as in `edit_group`."""
    count_change(actor=actor, session_id=segment.session_id)
    last = segment.groups.aggregate(last=Max("position"))["last"]
    group = CircuitGroup(
        segment=segment,
        position=0 if last is None else last + 1,
        rounds_min=rounds.low,
        rounds_max=rounds.high,
        **values,
    )
    group.save()
    return group


@transaction.atomic
def edit_group(*, actor: Actor, group: CircuitGroup, rounds: Rounds, **values: Any) -> None:
    """Change rounds and any of is_optional, rest_min_s, rest_max_s, rest_note, rest_after_s, intent."""
    if differs(row=group, values={"rounds_min": rounds.low, "rounds_max": rounds.high, **values}):
        count_change(actor=actor, session_id=group.segment.session_id)
        group.save()
        fit_sets(group=group)


def fit_sets(*, group: CircuitGroup) -> None:
    """Lines with sets of their own give way to the rounds of the block where they no longer fit."""
    rounds = Rounds(group.rounds_min, group.rounds_max)
    for row in group.prescriptions.exclude(sets=None):
        if kept_sets(row.sets, rounds) is None:
            row.sets = None
            row.save(update_fields=["sets"])


@transaction.atomic
def move(*, actor: Actor, row: Segment | CircuitGroup, step: Step) -> bool:
    """One place up (-1) or down (1) among its like; False at the edge, where nothing changes."""
    rows, session_id = siblings(row)
    place = rows.index(row)
    if not 0 <= place + step < len(rows):
        return False
    count_change(actor=actor, session_id=session_id)
    rows[place], rows[place + step] = rows[place + step], rows[place]
    renumber(rows=rows)
    return True


def siblings(row: Segment | CircuitGroup | Prescription) -> tuple[list[Any], int]:
    """All of its like in the same place, in order, and the key of the session."""
    if isinstance(row, Segment):
        return list(row.session.segments.all()), row.session_id
    if isinstance(row, CircuitGroup):
        return list(row.segment.groups.all()), row.segment.session_id
    return list(row.group.prescriptions.all()), row.group.segment.session_id


def renumber(*, rows: Sequence[Segment | CircuitGroup | Prescription]) -> None:
    """Positions 0, 1, 2 in this order."""
    for position, row in enumerate(rows):
        if row.position != position:
            row.position = position
            row.save(update_fields=["position"])
