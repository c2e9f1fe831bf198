"""A line that speaks of a family says so wherever it goes."""

from __future__ import annotations

from typing import Any

import pytest

from coachhub.base.actor import Actor
from coachhub.coaching.notation import parse
from coachhub.plans import actions_copy, actions_lines, actions_removal
from coachhub.plans.models import Prescription, Session
from tests.cast import Cast, Role

pytestmark = pytest.mark.django_db


@pytest.fixture
def coach(cast: Cast) -> Actor:
    return cast.actor_of(Role.COACH)


@pytest.fixture
def line(cast: Cast) -> Prescription:
    line = cast.prescription
    line.is_by_level = True
    line.save()
    return line


def test_copies_of_block_session_and_plan_speak_of_the_family(cast: Cast, coach: Actor, line: Prescription) -> None:
    actions_copy.duplicate_group(actor=coach, group=line.group)
    actions_copy.copy_session(
        actor=coach, session=cast.session, plan=cast.plan, name="Copy", day=2, week_from=1, week_to=1
    )
    actions_copy.copy_plan(actor=coach, plan=cast.plan, squad=None, name="Copy")
    assert list(Prescription.objects.values_list("is_by_level", flat=True)) == [True] * 8


def test_line_that_is_put_back_speaks_of_the_family(coach: Actor, line: Prescription) -> None:
    removal = actions_removal.remove_prescription(actor=coach, prescription=line, title="A1")
    actions_removal.restore(actor=coach, removal=removal)
    assert Prescription.objects.get(pk=line.pk).is_by_level


def test_turning_it_on_or_off_is_a_change_of_the_session(cast: Cast, coach: Actor, line: Prescription) -> None:
    same: dict[str, Any] = {
        "ramp_up_sets": 0,
        "rest_after_s": 0,
        "cue": "",
        "directions": [],
        "swaps": [],
        "pair": None,
    }
    for by_level, revision in ((True, 1), (False, 2), (True, 3)):
        row = Prescription.objects.select_related("group__segment").get(pk=line.pk)
        actions_lines.edit_prescription(
            actor=coach, prescription=row, exercise=cast.exercise, dose=parse("3 x 6"), by_level=by_level, **same
        )
        assert Session.objects.get().revision == revision
