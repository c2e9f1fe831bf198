"""Copies have rows of their own, and say the same."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from django.core.exceptions import PermissionDenied

from coachhub.base.actor import Actor
from coachhub.base.clock import now
from coachhub.plans import actions_copy
from coachhub.plans.models import (
    CircuitGroup,
    Plan,
    Prescription,
    PrescriptionSwap,
    PrescriptionWeek,
    Session,
)
from tests.cast import Cast
from tests.factories import (
    CircuitGroupFactory,
    ExerciseFactory,
    PlanFactory,
    PrescriptionFactory,
    SegmentFactory,
    SessionFactory,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def coach(cast: Cast) -> Actor:
    return cast.actor_of("coach")


@pytest.fixture
def session(cast: Cast) -> Session:
    """A1 with a swap and two weeks of its own, A2 paired with it, and a block after them."""
    heavy = cast.prescription
    PrescriptionSwap.objects.create(prescription=heavy, exercise=ExerciseFactory.create(name="Hip hinge"))
    for week, low in ((1, 5), (3, 3)):
        PrescriptionWeek.objects.create(prescription=heavy, week=week, low=low)
    PrescriptionFactory.create(group=heavy.group, position=1, pair_with=heavy, cue="quick")
    CircuitGroupFactory.create(segment=heavy.group.segment, position=1, intent="after")
    Plan.objects.filter(pk=cast.plan.pk).update(weeks=4)
    Session.objects.filter(pk=cast.session.pk).update(week_to=4, slot_minutes=75, note="calm", revision=9)
    return Session.objects.get(pk=cast.session.pk)


def said(group: CircuitGroup) -> list[dict[str, Any]]:
    return [
        {
            "position": row.position,
            "exercise": row.exercise.name,
            "low": int(row.low),
            "cue": row.cue,
            "pair": row.pair_with.position if row.pair_with else None,
            "swaps": [swap.exercise.name for swap in row.swaps.all()],
            "weeks": {week.week: int(week.low or 0) for week in row.week_values.all()},
        }
        for row in group.prescriptions.all()
    ]


def copied(actor: Actor, session: Session, **changes: Any) -> Session:
    values = {"plan": session.plan, "name": "Copy", "day": 2, "week_from": 1, "week_to": 4, **changes}
    return actions_copy.copy_session(actor=actor, session=session, **values)


def test_block_is_duplicated_right_after_itself(coach: Actor, session: Session) -> None:
    group = CircuitGroup.objects.get(intent="")

    added = actions_copy.duplicate_group(actor=coach, group=group)

    assert [row.pk for row in group.segment.groups.all()][:2] == [group.pk, added.pk]
    assert [row.position for row in group.segment.groups.all()] == [0, 1, 2]
    assert said(added) == said(group)
    assert {row.pk for row in added.prescriptions.all()}.isdisjoint(row.pk for row in group.prescriptions.all())
    assert Session.objects.get().revision == 10


def test_session_is_copied_whole_and_starts_anew(coach: Actor, session: Session) -> None:
    added = copied(coach, session)

    groups = [list(CircuitGroup.objects.filter(segment__session=one)) for one in (session, added)]
    assert [said(group) for group in groups[1]] == [said(group) for group in groups[0]]
    assert (added.name, added.day, added.slot_minutes, added.note) == ("Copy", 2, 75, "calm")
    assert (added.revision, Session.objects.get(pk=session.pk).revision) == (1, 9)


def test_weeks_move_along_and_those_outside_stay_behind(cast: Cast, coach: Actor, session: Session) -> None:
    plan = PlanFactory.create(squad=cast.squad, weeks=8)

    added = copied(coach, session, plan=plan, week_from=5, week_to=6)

    weeks = PrescriptionWeek.objects.filter(prescription__group__segment__session=added)
    assert [(value.week, value.low) for value in weeks] == [(5, Decimal(5))]


def test_plan_is_copied_to_a_squad_with_its_sessions_in_use(cast: Cast, coach: Actor, session: Session) -> None:
    SessionFactory.create(plan=cast.plan, name="Gone", archived_at=now())
    SegmentFactory.create(session=SessionFactory.create(plan=cast.plan, name="Empty", day=3))
    source = Plan.objects.get(pk=cast.plan.pk)

    added = actions_copy.copy_plan(actor=coach, plan=source, squad=None, name="Autumn again")

    assert (added.copied_from, added.squad, added.weeks, added.created_by_id) == (source, None, 4, coach.user_id)
    assert sorted(added.sessions.values_list("name", flat=True)) == ["Empty", "Monday lower"]
    assert Prescription.objects.filter(group__segment__session__plan=added).count() == 2
    assert (Plan.objects.get(name="Autumn again").search_key, source.sessions.count()) == ("autumn again", 3)


def test_nothing_is_copied_from_or_to_what_the_coach_has_no_hand_in(cast: Cast, session: Session) -> None:
    other, plan = cast.actor_of("other coach"), PlanFactory.create(squad=cast.other_squad, weeks=4)
    group = CircuitGroup.objects.get(intent="")

    for act in (
        lambda: actions_copy.duplicate_group(actor=other, group=group),
        lambda: copied(other, session, plan=plan),
        lambda: copied(cast.actor_of("coach"), session, plan=plan),
        lambda: actions_copy.copy_plan(actor=other, plan=session.plan, squad=cast.other_squad, name="Theirs"),
        lambda: actions_copy.copy_plan(
            actor=cast.actor_of("coach"), plan=session.plan, squad=cast.other_squad, name="Theirs"
        ),
        lambda: copied(cast.actor_of("assistant"), session),
    ):
        with pytest.raises(PermissionDenied):
            act()

    assert (Plan.objects.count(), Session.objects.count(), CircuitGroup.objects.count()) == (2, 1, 2)
