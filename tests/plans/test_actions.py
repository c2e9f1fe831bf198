"""Verbs on plans, sessions, parts and blocks."""

from __future__ import annotations

from typing import Any

import pytest
from django.core.exceptions import PermissionDenied

from coachhub.base.actor import Actor
from coachhub.base.clock import now
from coachhub.base.models import SegmentKind
from coachhub.coaching.rounds import Rounds
from coachhub.plans import actions
from coachhub.plans.models import CircuitGroup, Plan, Segment, Session
from tests.cast import Cast, Role
from tests.factories import CircuitGroupFactory, PlanFactory, PrescriptionFactory, SegmentFactory, SessionFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def coach(cast: Cast) -> Actor:
    return cast.actor_of("coach")


@pytest.fixture
def session(cast: Cast) -> Session:
    return SessionFactory.create(plan=PlanFactory.create(squad=cast.squad, weeks=4))


def revision(session: Session) -> int:
    return Session.objects.get(pk=session.pk).revision


def kinds(session: Session) -> list[str]:
    return [segment.kind for segment in session.segments.all()]


def test_plan_is_added_with_its_author(cast: Cast, coach: Actor) -> None:
    plan = actions.add_plan(actor=coach, name="Autumn", squad=cast.squad, weeks=6, note="twice a week")

    saved = Plan.objects.get()
    assert (saved.pk, saved.name, saved.squad, saved.weeks) == (plan.pk, "Autumn", cast.squad, 6)
    assert (saved.created_by_id, saved.note) == (coach.user_id, "twice a week")


@pytest.mark.parametrize("role", [Role.ASSISTANT, Role.CLINICIAN, Role.HEAD_COACH, Role.ATHLETE, Role.OTHER_COACH])
def test_plan_of_a_squad_is_added_by_its_coaches_only(cast: Cast, role: Role) -> None:
    with pytest.raises(PermissionDenied):
        actions.add_plan(actor=cast.actor_of(role), name="Autumn", squad=cast.squad, weeks=6)
    assert Plan.objects.count() == 0


def test_plan_is_edited_and_put_away(coach: Actor, session: Session) -> None:
    actions.edit_plan(actor=coach, plan=session.plan, name="Winter", squad=None, weeks=8)
    actions.archive_plan(actor=coach, plan=session.plan)

    saved = Plan.objects.get()
    assert (saved.name, saved.squad, saved.weeks, saved.is_archived) == ("Winter", None, 8, True)


def test_plan_is_not_given_to_a_squad_of_others(cast: Cast, coach: Actor, session: Session) -> None:
    with pytest.raises(PermissionDenied):
        actions.edit_plan(actor=coach, plan=session.plan, name="Mine", squad=cast.other_squad, weeks=4)


def test_session_starts_with_the_parts_asked_for(coach: Actor, session: Session) -> None:
    added = actions.add_session(actor=coach, plan=session.plan, name="Day 1", parts=actions.USUAL_PARTS)

    assert kinds(added) == ["warm_up", "activation", "athleticism", "strength"]
    assert (added.revision, added.slot_minutes) == (1, 60)


def test_part_is_put_where_it_usually_stands(coach: Actor, session: Session) -> None:
    for kind in ("strength", "cool_down", "warm_up", "conditioning", "strength"):
        actions.add_segment(actor=coach, session=session, kind=SegmentKind(kind))

    assert kinds(session) == ["warm_up", "strength", "strength", "conditioning", "cool_down"]
    assert revision(session) == 6


def every_change(session: Session) -> dict[str, Any]:
    """Each verb of this module that changes what a session says, with what it needs."""
    first, _second = (SegmentFactory.create(session=session, position=n) for n in range(2))
    group, _other = (CircuitGroupFactory.create(segment=first, position=n) for n in range(2))
    return {
        "edit_session": {"session": session, "name": "New name"},
        "archive_session": {"session": session},
        "add_segment": {"session": session, "kind": SegmentKind.WARM_UP},
        "edit_segment": {"segment": first, "kind": SegmentKind.STRENGTH, "minutes": 20},
        "add_group": {"segment": first},
        "edit_group": {"group": group, "rounds": Rounds(5, 5)},
        "move": {"row": group, "step": 1},
    }


VERBS = [
    "edit_session",
    "archive_session",
    "add_segment",
    "edit_segment",
    "add_group",
    "edit_group",
    "move",
]


@pytest.mark.parametrize("verb", VERBS)
def test_change_counts_the_revision_up_by_one(coach: Actor, session: Session, verb: str) -> None:
    getattr(actions, verb)(actor=coach, **every_change(session)[verb])

    assert revision(session) == 2


@pytest.mark.parametrize("verb", VERBS)
def test_change_by_anyone_else_is_refused_and_leaves_no_trace(cast: Cast, session: Session, verb: str) -> None:
    arguments = every_change(session)[verb]
    rows = (Segment.objects.count(), CircuitGroup.objects.count())

    with pytest.raises(PermissionDenied):
        getattr(actions, verb)(actor=cast.actor_of("other coach"), **arguments)

    assert (revision(session), rows) == (1, (Segment.objects.count(), CircuitGroup.objects.count()))


def test_change_of_a_session_that_was_put_away_is_refused(coach: Actor, session: Session) -> None:
    Session.objects.update(archived_at=now())

    with pytest.raises(PermissionDenied):
        actions.add_segment(actor=coach, session=session, kind=SegmentKind.STRENGTH)


def test_saving_the_same_again_counts_nothing(coach: Actor, session: Session) -> None:
    segment = SegmentFactory.create(session=session)
    group = CircuitGroupFactory.create(segment=segment)

    actions.edit_session(actor=coach, session=session, name=session.name, day=session.day)
    actions.edit_segment(actor=coach, segment=segment, kind=SegmentKind.STRENGTH, minutes=None)
    actions.edit_group(actor=coach, group=group, rounds=Rounds(3, 3), intent="")

    assert revision(session) == 1


def test_session_refuses_to_edit_what_is_counted_or_moved(coach: Actor, session: Session) -> None:
    with pytest.raises(TypeError, match="revision"):
        actions.edit_session(actor=coach, session=session, revision=7)


def test_move_changes_places_and_stops_at_the_edge(coach: Actor, session: Session) -> None:
    segment = SegmentFactory.create(session=session)
    rows = [CircuitGroupFactory.create(segment=segment, position=position) for position in (4, 4, 9)]

    assert actions.move(actor=coach, row=rows[2], step=-1)
    assert not actions.move(actor=coach, row=rows[0], step=-1)

    assert [row.pk for row in segment.groups.all()] == [rows[0].pk, rows[2].pk, rows[1].pk]
    assert (segment.groups.last(), revision(session)) == (rows[1], 2)


def test_block_with_other_rounds_frees_lines_whose_sets_no_longer_fit(coach: Actor, session: Session) -> None:
    group = CircuitGroupFactory.create(segment=SegmentFactory.create(session=session), rounds_min=5)
    rows = [PrescriptionFactory.create(group=group, sets=sets) for sets in (2, 3, 4, None)]

    actions.edit_group(actor=coach, group=group, rounds=Rounds(3, 3), rest_min_s=90, rest_max_s=120)

    assert [type(row).objects.get(pk=row.pk).sets for row in rows] == [2, None, None, None]
    assert (CircuitGroup.objects.get().rest_max_s, revision(session)) == (120, 2)


def test_block_is_added_at_the_end_of_its_part(coach: Actor, session: Session) -> None:
    segment = SegmentFactory.create(session=session)
    CircuitGroupFactory.create(segment=segment, position=7)

    added = actions.add_group(actor=coach, segment=segment, rounds=Rounds(3, 4), intent="capacity", is_optional=True)

    assert segment.groups.last() == added
    assert (added.rounds_min, added.rounds_max, added.intent, added.is_optional) == (3, 4, "capacity", True)


def test_session_that_was_put_away_is_brought_back_by_its_coaches(cast: Cast, coach: Actor, session: Session) -> None:
    actions.archive_session(actor=coach, session=session)
    with pytest.raises(PermissionDenied):
        actions.restore_session(actor=cast.actor_of("other coach"), session=session)

    actions.restore_session(actor=coach, session=session)

    assert (Session.objects.get().is_archived, revision(session)) == (False, 3)
