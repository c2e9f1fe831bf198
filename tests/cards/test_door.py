"""A session changed at the door: which lines change, and what stays."""

from __future__ import annotations

from uuid import uuid4

import pytest
from django.core.exceptions import PermissionDenied

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.cards.actions import renew_card, restrict_athlete
from coachhub.cards.actions.door import change_at_door, preview_at_door, undo_at_door
from coachhub.cards.models import CardRevision, DoorChange
from coachhub.cards.words_door import revision_text
from tests.cards.at_the_door import block_off, change, do_round, rounds, stays, swap
from tests.cards.conftest import Evening
from tests.cast import Role
from tests.factories import ExerciseFactory


def test_block_left_out_leaves_every_card_and_says_why(evening: Evening) -> None:
    outcome = change(evening, block_off(evening, "B"))

    assert [plan.is_changed for plan in outcome.plans] == [True, True]
    line = evening.line(evening.hinge)
    assert (line.is_dropped, [step.code for step in line.trace]) == (True, ["door_block"])
    assert revision_text(evening.sheet().revision) == "changed at the door: block B left out"
    assert [line.name for line in evening.sheet().lines] == ["Front squat", "Split squat"]


def test_line_with_a_set_on_it_stays(evening: Evening) -> None:
    do_round(evening)

    outcome = change(evening, block_off(evening, "A"))

    assert stays(outcome.plans) == [("A1 Front squat", "begun"), ("A2 Split squat", "begun")]
    assert [evening.card(a).revision_number for a in (evening.athlete, evening.cast.team_mate)] == [1, 2]


def test_rounds_are_cut_on_begun_blocks_too_and_the_line_itself_stays(evening: Evening) -> None:
    do_round(evening)

    change(evening, rounds(evening, "A", 4, 3))

    block = evening.sheet().blocks[0]
    assert (block.rounds_max, [line.sets for line in block.lines]) == (3, [3, 3])
    stored = CardRevision.objects.get(card=evening.card(), number=2).lines.get(line_key=evening.squat.line_key)
    assert stored.sets == 4
    assert revision_text(evening.sheet().revision) == "changed at the door: round 4 of block A cut"


def test_written_rounds_are_never_cut(evening: Evening) -> None:
    for number in (1, 2, 3):
        do_round(evening, number)

    outcome = change(evening, rounds(evening, "A", 4, 2))

    assert stays(outcome.plans) == [("A", "written")]
    assert [evening.sheet(a).blocks[0].rounds_max for a in (evening.athlete, evening.cast.team_mate)] == [3, 2]


def test_round_more_is_not_for_who_has_begun_the_block(evening: Evening) -> None:
    do_round(evening)

    outcome = change(evening, rounds(evening, "A", 4, 5))

    assert stays(outcome.plans) == [("A", "begun")]
    mate = evening.sheet(evening.cast.team_mate).blocks[0]
    assert (mate.rounds_min, mate.rounds_max, [line.sets for line in mate.lines]) == (5, 5, [5, 5])
    assert evening.sheet().blocks[0].rounds_max == 4


def test_swap_takes_the_chosen_exercise_and_no_load_from_the_old_one(evening: Evening) -> None:
    change(evening, swap(evening, evening.squat, evening.goblet.pk))

    line = evening.line(evening.squat)
    assert (line.name, line.written_name, line.load, line.load_rule) == ("Goblet squat", "Front squat", None, "find")
    assert [step.code for step in line.trace][:2] == ["door_swap", "swapped"]


def test_swap_to_any_exercise_is_resolved_as_usual(evening: Evening) -> None:
    press = ExerciseFactory.create(name="Leg press", load_meaning="machine", regions=["knee"], needs=[["machine"]])

    change(evening, swap(evening, evening.squat, press.pk))

    # There is no leg press here, so the coach's own swap comes next.
    assert evening.line(evening.squat).name == "Goblet squat"


def test_swap_respects_a_restriction_of_one_athlete(evening: Evening) -> None:
    lunge = ExerciseFactory.create(name="Step-up", load_meaning="none", regions=["knee"])
    restrict_athlete(
        actor=evening.coach, athlete=evening.athlete, kind="region", region="knee", on_word_of="Dr Alder",
        starts_on=today(),
    )  # fmt: skip

    change(evening, swap(evening, evening.squat, lunge.pk))

    names = [evening.line(evening.squat, a).name for a in (evening.athlete, evening.cast.team_mate)]
    assert names == ["Goblet squat", "Step-up"]


def test_exercise_that_is_on_the_card_already_is_not_taken_twice(evening: Evening) -> None:
    outcome = change(evening, swap(evening, evening.squat, evening.cast.exercise.pk))

    assert outcome.change is not None or stays(outcome.plans) != []
    assert evening.line(evening.squat).name == "Goblet squat"


def test_change_for_one_card_leaves_the_others(evening: Evening) -> None:
    change(evening, block_off(evening, "B"), card=evening.card())

    assert [evening.card(a).revision_number for a in (evening.athlete, evening.cast.team_mate)] == [2, 1]


def test_change_sent_twice_is_made_once(evening: Evening) -> None:
    uuid = uuid4()

    first, again = (change(evening, rounds(evening, "A", 4, 3), uuid=uuid) for _ in range(2))

    assert first.change == again.change
    assert evening.card().revision_number == 2


def test_change_that_changes_nothing_is_not_kept(evening: Evening) -> None:
    assert change(evening, rounds(evening, "A", 4, 4)).change is None
    assert DoorChange.objects.count() == 0


def test_preview_is_what_the_change_does_and_writes_nothing(evening: Evening) -> None:
    steps = [block_off(evening, "B")]
    plans = preview_at_door(actor=evening.coach, assignment=evening.assignment, steps=steps)

    assert [plan.is_changed for plan in plans] == [True, True]
    assert (DoorChange.objects.count(), CardRevision.objects.count()) == (0, 2)


@pytest.mark.parametrize("role", [Role.OTHER_COACH, Role.ASSISTANT, Role.CLINICIAN, Role.HEAD_COACH, Role.ATHLETE])
def test_only_the_squads_coach_changes_and_undoes(evening: Evening, role: Role) -> None:
    actor: Actor = evening.cast.actor_of(role)
    steps = [block_off(evening, "B")]
    made = change(evening, *steps).change
    assert made is not None

    with pytest.raises(PermissionDenied):
        change_at_door(actor=actor, assignment=evening.assignment, steps=steps, uuid=uuid4())
    with pytest.raises(PermissionDenied):
        undo_at_door(actor=actor, change=made)


def test_change_holds_when_the_card_is_renewed_or_read_again_for_health(evening: Evening) -> None:
    change(evening, rounds(evening, "A", 4, 3), block_off(evening, "B"))
    renew_card(actor=evening.coach, card=evening.card())
    restrict_athlete(
        actor=evening.coach, athlete=evening.athlete, kind="exercise", exercise=evening.squat.exercise,
        on_word_of="Dr Alder", starts_on=today(),
    )  # fmt: skip

    block = evening.sheet().blocks[0]
    assert (block.rounds_max, [(line.name, line.sets) for line in block.lines]) == (
        3,
        [("Goblet squat", 3), ("Split squat", 3)],
    )
    assert evening.line(evening.hinge).is_dropped
