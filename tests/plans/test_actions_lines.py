"""Verbs on the lines of a block."""

from __future__ import annotations

from typing import Any

import pytest
from django.core.exceptions import PermissionDenied

from coachhub.base.actor import Actor
from coachhub.coaching.notation import parse
from coachhub.coaching.rounds import Rounds, SetsMisfitError
from coachhub.plans import actions_lines, actions_removal
from coachhub.plans.dose import plain_dose
from coachhub.plans.models import CircuitGroup, Prescription, Session
from tests.cast import Cast
from tests.factories import CircuitGroupFactory, ExerciseFactory, PrescriptionFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def coach(cast: Cast) -> Actor:
    return cast.actor_of("coach")


@pytest.fixture
def line(cast: Cast) -> Prescription:
    return cast.prescription


def revision() -> int:
    return Session.objects.get().revision


def rounds(group: CircuitGroup) -> Rounds:
    saved = CircuitGroup.objects.get(pk=group.pk)
    return Rounds(saved.rounds_min, saved.rounds_max)


def add(coach: Actor, group: CircuitGroup, text: str, **more: Any) -> Prescription:
    return actions_lines.add_prescription(
        actor=coach, group=group, exercise=ExerciseFactory.create(), dose=parse(text), **more
    )


def edit(coach: Actor, line: Prescription, text: str, **more: Any) -> None:
    values: dict[str, Any] = {
        "exercise": line.exercise,
        "ramp_up_sets": 0,
        "rest_after_s": 0,
        "cue": "",
        "directions": [],
        "swaps": [],
        "pair": None,
        **more,
    }
    actions_lines.edit_prescription(actor=coach, prescription=line, dose=parse(text), **values)


def test_line_is_added_at_the_end_with_all_it_says(coach: Actor, line: Prescription) -> None:
    swaps = [ExerciseFactory.create(), ExerciseFactory.create()]

    added = add(
        coach, line.group, "2 x 8/side @ 20 kg", ramp_up_sets=2, rest_after_s=45, cue="tall", swaps=swaps, pair=line
    )

    saved = line.group.prescriptions.last()
    assert saved == added
    assert (saved.sets, saved.ramp_up_sets, saved.rest_after_s, saved.cue) == (2, 2, 45, "tall")
    assert (plain_dose(saved), saved.pair_with) == (parse("8/side @ 20 kg"), line)
    assert [swap.exercise for swap in saved.swaps.all()] == swaps
    assert revision() == 2


def test_sets_of_the_first_line_become_the_rounds(coach: Actor, line: Prescription) -> None:
    group = CircuitGroupFactory.create(segment=line.group.segment, rounds_min=3)

    added = add(coach, group, "4-5 x 6")

    assert (rounds(group), added.sets) == (Rounds(4, 5), None)


def test_sets_beyond_the_rounds_are_refused_and_leave_no_trace(coach: Actor, line: Prescription) -> None:
    with pytest.raises(SetsMisfitError):
        add(coach, line.group, "4 x 6")

    assert (Prescription.objects.count(), rounds(line.group), revision()) == (1, Rounds(3, 3), 1)


def test_only_line_edited_with_other_sets_changes_the_rounds(coach: Actor, line: Prescription) -> None:
    edit(coach, line, "5 x 6")

    assert (rounds(line.group), Prescription.objects.get().sets, revision()) == (Rounds(5, 5), None, 2)


def test_line_edited_without_sets_does_one_in_each_round(coach: Actor, line: Prescription) -> None:
    fewer = PrescriptionFactory.create(group=line.group, sets=2)

    edit(coach, fewer, "6")

    fewer.refresh_from_db()
    assert (fewer.sets, rounds(line.group)) == (None, Rounds(3, 3))


def test_line_saved_as_it_stands_counts_nothing(coach: Actor, line: Prescription) -> None:
    edit(coach, line, "6")
    edit(coach, line, "3 x 6")

    assert revision() == 1


@pytest.mark.parametrize(
    "change",
    [
        {"cue": "knees out"},
        {"ramp_up_sets": 3},
        {"rest_after_s": 60},
        {"directions": ["forward", "lateral"]},
        {"text": "6 @ 2 RIR"},
        {"text": "5 x 6"},
    ],
    ids=str,
)
def test_line_edited_counts_the_revision_up_by_one(coach: Actor, line: Prescription, change: dict[str, Any]) -> None:
    edit(coach, line, change.pop("text", "6"), **change)

    assert revision() == 2


def test_new_swaps_count_the_revision_and_keep_their_order(coach: Actor, line: Prescription) -> None:
    first, second = ExerciseFactory.create(), ExerciseFactory.create()

    actions_lines.set_swaps(actor=coach, prescription=line, exercises=[second, first])
    actions_lines.set_swaps(actor=coach, prescription=line, exercises=[second, first])

    assert ([swap.exercise for swap in line.swaps.all()], revision()) == ([second, first], 2)


def test_pair_is_made_once_and_undone(coach: Actor, line: Prescription) -> None:
    jump = PrescriptionFactory.create(group=line.group)

    actions_lines.pair_with(actor=coach, prescription=jump, other=line)
    actions_lines.pair_with(actor=coach, prescription=jump, other=line)
    assert (Prescription.objects.get(pk=jump.pk).pair_with, revision()) == (line, 2)

    actions_lines.pair_with(actor=coach, prescription=jump, other=None)
    assert (Prescription.objects.get(pk=jump.pk).pair_with, revision()) == (None, 3)


def test_pair_with_a_line_elsewhere_is_refused(coach: Actor, line: Prescription) -> None:
    with pytest.raises(ValueError, match="one block"):
        actions_lines.pair_with(actor=coach, prescription=line, other=PrescriptionFactory.create())


@pytest.mark.parametrize("role", ["other coach", "assistant", "clinician"])
def test_lines_are_changed_by_the_squads_coaches_only(cast: Cast, line: Prescription, role: str) -> None:
    actor = cast.actor_of(role)

    for change in (
        lambda: add(actor, line.group, "6"),
        lambda: edit(actor, line, "9 x 6"),
        lambda: actions_removal.remove_prescription(actor=actor, prescription=line, title="A1"),
        lambda: actions_lines.set_swaps(actor=actor, prescription=line, exercises=[ExerciseFactory.create()]),
    ):
        with pytest.raises(PermissionDenied):
            change()

    assert (Prescription.objects.count(), rounds(line.group), line.swaps.count(), revision()) == (1, Rounds(3, 3), 0, 1)
