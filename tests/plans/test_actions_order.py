"""A line goes elsewhere in its session: a step at a time, or to any place."""

from __future__ import annotations

import pytest
from django.core.exceptions import PermissionDenied

from coachhub.base.actor import Actor
from coachhub.plans import actions_order
from coachhub.plans.actions import Step
from coachhub.plans.models import CircuitGroup, Prescription, Session
from coachhub.plans.queries import load_session
from tests.cast import Cast
from tests.factories import CircuitGroupFactory, PrescriptionFactory, SegmentFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def coach(cast: Cast) -> Actor:
    return cast.actor_of("coach")


@pytest.fixture
def lines(cast: Cast) -> list[Prescription]:
    """Warm-up with one line; A with two; an empty B."""
    warm_up = SegmentFactory.create(session=cast.session, kind="warm_up", position=0)
    first = PrescriptionFactory.create(group=CircuitGroupFactory.create(segment=warm_up))
    group = cast.prescription.group
    type(group.segment).objects.filter(pk=group.segment_id).update(position=1)
    CircuitGroupFactory.create(segment=group.segment, position=7, rounds_min=2)
    return [first, cast.prescription, PrescriptionFactory.create(group=group, position=3, pair_with=cast.prescription)]


def order(session: Session) -> list[list[int]]:
    return [[line.row.pk for line in block.lines] for block in load_session(session.pk).blocks]


def test_steps_lead_through_every_block_and_stop_at_the_ends(
    cast: Cast, coach: Actor, lines: list[Prescription]
) -> None:
    first, second, third = (line.pk for line in lines)
    seen = []
    steps: list[Step] = [1, 1, 1, 1]
    for step in steps:
        line = Prescription.objects.select_related("group__segment").get(pk=first)
        seen.append((actions_order.step_line(actor=coach, prescription=line, step=step), order(cast.session)))

    assert seen == [
        (True, [[], [first, second, third], []]),
        (True, [[], [second, first, third], []]),
        (True, [[], [second, third, first], []]),
        (True, [[], [second, third], [first]]),
    ]
    line = Prescription.objects.get(pk=first)
    assert not actions_order.step_line(actor=coach, prescription=line, step=1)
    assert actions_order.step_line(actor=coach, prescription=line, step=-1)
    assert order(cast.session) == [[], [second, third, first], []]
    assert Session.objects.get().revision == 6


def test_line_in_another_block_loses_its_pair_and_keeps_the_sets_that_fit(
    cast: Cast, coach: Actor, lines: list[Prescription]
) -> None:
    Prescription.objects.filter(pk=lines[1].pk).update(sets=2)
    b = CircuitGroup.objects.get(rounds_min=2)
    moved = Prescription.objects.get(pk=lines[1].pk)

    assert actions_order.place_line(actor=coach, prescription=moved, group=b, place=0)

    assert Prescription.objects.get(pk=lines[2].pk).pair_with is None
    moved.refresh_from_db()
    assert (moved.group, moved.sets, moved.line_key) == (b, None, lines[1].line_key)


def test_line_put_where_it_stands_changes_nothing(cast: Cast, coach: Actor, lines: list[Prescription]) -> None:
    line = Prescription.objects.get(pk=lines[1].pk)

    assert not actions_order.place_line(actor=coach, prescription=line, group=line.group, place=0)

    assert (Session.objects.get().revision, Prescription.objects.get(pk=lines[2].pk).pair_with) == (1, lines[1])


def test_line_stays_in_its_session_and_in_its_coachs_hands(cast: Cast, lines: list[Prescription]) -> None:
    elsewhere = CircuitGroupFactory.create()
    for actor, group in ((cast.actor_of("owner"), elsewhere), (cast.actor_of("other coach"), lines[0].group)):
        with pytest.raises(PermissionDenied):
            actions_order.place_line(actor=actor, prescription=lines[1], group=group, place=0)

    assert order(cast.session) == [[lines[0].pk], [lines[1].pk, lines[2].pk], []]
