"""Removing and putting back: the same rows with the same keys, or a clear no."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from django.core import serializers
from django.core.exceptions import PermissionDenied
from django.db import models

from coachhub.base.actor import Actor
from coachhub.base.clock import now
from coachhub.coaching.rounds import Rounds
from coachhub.plans import actions, actions_removal
from coachhub.plans.actions_removal import GoneError
from coachhub.plans.models import (
    CircuitGroup,
    Prescription,
    PrescriptionSwap,
    PrescriptionWeek,
    Removal,
    Segment,
    Session,
)
from tests.cast import Cast
from tests.factories import CircuitGroupFactory, ExerciseFactory, PrescriptionFactory, SegmentFactory

pytestmark = pytest.mark.django_db

TABLES: list[type[models.Model]] = [Segment, CircuitGroup, Prescription, PrescriptionSwap, PrescriptionWeek]
VERBS = {
    "part": ("remove_segment", "segment", Segment),
    "block": ("remove_group", "group", CircuitGroup),
    "line": ("remove_prescription", "prescription", Prescription),
}


@pytest.fixture
def coach(cast: Cast) -> Actor:
    return cast.actor_of("coach")


@pytest.fixture
def line(cast: Cast) -> Prescription:
    """A1, heavy, with a swap and a week of its own; A2, its jump, and a block and a part after it."""
    heavy = cast.prescription
    Prescription.objects.filter(pk=heavy.pk).update(load_rule="percent", percent="72.5", directions=["forward"])
    PrescriptionSwap.objects.create(prescription=heavy, exercise=ExerciseFactory.create())
    PrescriptionWeek.objects.create(prescription=heavy, week=2, percent="77.5")
    PrescriptionFactory.create(group=heavy.group, position=1, pair_with=heavy)
    PrescriptionFactory.create(group=CircuitGroupFactory.create(segment=heavy.group.segment, position=1))
    SegmentFactory.create(session=cast.session, kind="cool_down", position=1)
    return heavy


def everything() -> list[Any]:
    return [serializers.serialize("python", table._default_manager.order_by("pk")) for table in TABLES]


def remove(actor: Actor, what: str, line: Prescription) -> Removal:
    name, argument, _table = VERBS[what]
    row = {"part": line.group.segment, "block": line.group, "line": line}[what]
    removal: Removal = getattr(actions_removal, name)(actor=actor, title="A", **{argument: row})
    return removal


@pytest.mark.parametrize("what", VERBS)
def test_what_is_removed_comes_back_with_its_keys(coach: Actor, line: Prescription, what: str) -> None:
    before = everything()

    removal = remove(coach, what, line)
    assert (Prescription.objects.filter(pk=line.pk).exists(), everything() == before) == (False, False)
    actions_removal.restore(actor=coach, removal=removal)

    assert everything() == before
    assert (Session.objects.get().revision, Removal.objects.count()) == (3, 0)


@pytest.mark.parametrize("what", VERBS)
def test_others_neither_remove_nor_put_back(cast: Cast, coach: Actor, line: Prescription, what: str) -> None:
    other = cast.actor_of("other coach")
    with pytest.raises(PermissionDenied):
        remove(other, what, line)
    removal = remove(coach, what, line)

    with pytest.raises(PermissionDenied):
        actions_removal.restore(actor=other, removal=removal)

    assert (Removal.objects.count(), Session.objects.get().revision) == (1, 2)


def test_it_comes_back_once(coach: Actor, line: Prescription) -> None:
    removal = remove(coach, "line", line)
    actions_removal.restore(actor=coach, removal=removal)

    with pytest.raises(GoneError):
        actions_removal.restore(actor=coach, removal=removal)

    assert Session.objects.get().revision == 3


def test_line_waits_until_its_block_is_back(coach: Actor, line: Prescription) -> None:
    first, second = remove(coach, "line", line), remove(coach, "block", line)

    with pytest.raises(GoneError):
        actions_removal.restore(actor=coach, removal=first)
    actions_removal.restore(actor=coach, removal=second)
    actions_removal.restore(actor=coach, removal=first)

    assert line.group.prescriptions.first() == line


def test_after_a_day_it_is_gone(coach: Actor, line: Prescription) -> None:
    removal = remove(coach, "line", line)
    Removal.objects.update(removed_at=now() - timedelta(days=1, seconds=1))
    with pytest.raises(GoneError):
        actions_removal.restore(actor=coach, removal=removal)

    remove(coach, "block", line)

    assert [row.pk for row in Removal.objects.all()] != [removal.pk]
    assert Removal.objects.count() == 1


def test_jump_comes_back_alone_where_its_lift_is_removed_too(coach: Actor, line: Prescription) -> None:
    jump = line.group.prescriptions.get(pair_with=line)
    first = actions_removal.remove_prescription(actor=coach, prescription=jump, title="A2")
    remove(coach, "line", line)

    actions_removal.restore(actor=coach, removal=first)

    assert Prescription.objects.get(pk=jump.pk).pair_with is None


def test_line_comes_back_to_the_rounds_that_its_block_has_now(coach: Actor, line: Prescription) -> None:
    Prescription.objects.filter(pk=line.pk).update(sets=2)
    removal = remove(coach, "line", line)
    actions.edit_group(actor=coach, group=line.group, rounds=Rounds(1, 1))

    actions_removal.restore(actor=coach, removal=removal)

    assert Prescription.objects.get(pk=line.pk).sets is None
