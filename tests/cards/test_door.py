"""A session changed at the door: which lines change, what stays, and what comes back."""

from __future__ import annotations

from decimal import Decimal
from uuid import UUID, uuid4

import pytest
from django.core.exceptions import PermissionDenied

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.cards.actions import log_round_as_planned, renew_card, restrict_athlete
from coachhub.cards.actions.door import Outcome, change_at_door, preview_at_door, undo_at_door, undoable_change
from coachhub.cards.actions.door_lines import CardPlan
from coachhub.cards.models import Card, CardRevision, DoorChange, SetEntry
from coachhub.cards.words_door import revision_text
from coachhub.coaching.door import DoorStep
from coachhub.coaching.facts import Mass
from coachhub.plans.models import Prescription
from tests.cards.conftest import Evening, tap
from tests.cast import Role
from tests.factories import AthleteFactory, ExerciseFactory, VenueFactory


def key(evening: Evening, label: str) -> str:
    return next(group.key for group in evening.sheet().blocks if group.label == label)


def block_off(evening: Evening, label: str) -> DoorStep:
    return DoorStep("block", key(evening, label), label=label)


def rounds(evening: Evening, label: str, was: int, now: int) -> DoorStep:
    return DoorStep("rounds", key(evening, label), now, label, str(was), str(now))


def swap(evening: Evening, line: Prescription, exercise_id: int) -> DoorStep:
    return DoorStep("swap", line.line_key, exercise_id, "A1", "Front squat", "another")


def change(evening: Evening, *steps: DoorStep, card: Card | None = None, uuid: UUID | None = None) -> Outcome:
    return change_at_door(
        actor=evening.coach, assignment=evening.assignment, steps=steps, uuid=uuid or uuid4(), card=card
    )


def undo(evening: Evening) -> tuple[CardPlan, ...]:
    newest = undoable_change(evening.assignment)
    assert newest is not None
    return undo_at_door(actor=evening.coach, change=newest)


def do_round(evening: Evening, number: int = 1) -> None:
    sheet = evening.sheet()
    done = tap(number, sheet.next_seq)
    log_round_as_planned(actor=evening.phone, card=evening.card(), sheet=sheet, group_key=key(evening, "A"), tap=done)


def stays(plans: tuple[CardPlan, ...]) -> list[tuple[str, str]]:
    return [(stay.what, stay.why) for plan in plans for stay in plan.stays]


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


def test_undo_puts_the_card_back_as_a_revision_of_its_own(evening: Evening) -> None:
    change(evening, rounds(evening, "A", 4, 2), block_off(evening, "B"))

    undo(evening)

    sheet = evening.sheet()
    assert [(b.label, b.rounds_max, [line.name for line in b.lines]) for b in sheet.blocks] == [
        ("A", 4, ["Front squat", "Split squat"]),
        ("B", 3, ["Romanian deadlift"]),
    ]
    assert (sheet.revision.number, evening.line(evening.hinge).load) == (3, Mass(Decimal(60), "kg"))
    assert undoable_change(evening.assignment) is None


def test_undo_twice_does_it_once(evening: Evening) -> None:
    made = change(evening, block_off(evening, "B")).change
    assert made is not None
    for _ in range(2):
        undo_at_door(actor=evening.coach, change=made)

    assert evening.card().revision_number == 3


def test_only_the_newest_change_can_be_undone(evening: Evening) -> None:
    first = change(evening, block_off(evening, "B")).change
    assert first is not None
    change(evening, rounds(evening, "A", 4, 3))

    assert undo_at_door(actor=evening.coach, change=first) == ()
    assert evening.line(evening.hinge).is_dropped


def test_undo_leaves_what_was_written_since(evening: Evening) -> None:
    change(evening, swap(evening, evening.squat, evening.goblet.pk))
    do_round(evening)

    plans = undo(evening)

    assert stays(plans) == [("A1 Goblet squat", "begun")]
    names = [evening.line(evening.squat, a).name for a in (evening.athlete, evening.cast.team_mate)]
    assert names == ["Goblet squat", "Front squat"]


def test_undo_leaves_a_card_that_something_else_changed_since(evening: Evening) -> None:
    change(evening, block_off(evening, "B"))
    restrict_athlete(
        actor=evening.coach, athlete=evening.athlete, kind="region", region="knee", on_word_of="Dr Alder",
        starts_on=today(),
    )  # fmt: skip

    plans = undo(evening)

    assert stays(plans) == [("", "again")]
    assert [evening.line(evening.hinge, a).is_dropped for a in (evening.athlete, evening.cast.team_mate)] == [
        True,
        False,
    ]


def test_undo_never_brings_back_what_a_restriction_forbids_by_now(evening: Evening) -> None:
    """The restriction concerned no line that was on, so the card has no newer revision."""
    change(evening, block_off(evening, "B"))
    restrict_athlete(
        actor=evening.coach, athlete=evening.athlete, kind="region", region="thigh_back", on_word_of="Dr Alder",
        starts_on=today(),
    )  # fmt: skip
    assert evening.card().revision_number == 2

    undo(evening)

    assert [evening.line(evening.hinge, a).is_dropped for a in (evening.athlete, evening.cast.team_mate)] == [
        True,
        False,
    ]


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


def test_move_loads_what_the_new_place_has(evening: Evening) -> None:
    hall = VenueFactory.create(name="School hall")

    change(evening, DoorStep("venue", value=hall.pk, now="School hall"))

    sheet = evening.sheet()
    assert (sheet.venue_name, [line.name for line in sheet.lines]) == ("School hall", ["Split squat"])
    assert revision_text(sheet.revision) == "changed at the door: moved to School hall"


def test_begun_line_stays_on_a_move_and_the_next_set_is_of_the_new_place(evening: Evening) -> None:
    do_round(evening)
    hall = VenueFactory.create(name="School hall")

    outcome = change(evening, DoorStep("venue", value=hall.pk, now="School hall"))
    do_round(evening, 2)

    assert ("A1 Front squat", "begun") in stays(outcome.plans)
    venues = (
        SetEntry.objects.filter(line_key=evening.squat.line_key).order_by("round").values_list("venue__name", flat=True)
    )
    assert list(venues) == ["Mill Lane gym", "School hall"]


def test_move_to_a_place_without_a_coach_takes_a_minors_begun_line_off(evening: Evening) -> None:
    minor = AthleteFactory.create(is_minor=True, squad=evening.cast.squad)
    evening.assignment = evening.assign(minor, in_days=1)
    sheet = evening.sheet(minor)
    log_round_as_planned(
        actor=evening.coach, card=evening.card(minor), sheet=sheet, group_key=sheet.blocks[0].key, tap=tap()
    )
    road = VenueFactory.create(name="On the road", is_supervised=False, stock=True)

    outcome = change(evening, DoorStep("venue", value=road.pk, now="On the road"))

    assert [plan.off for plan in outcome.plans] == [("A1 Front squat", "A2 Split squat")]
    line = evening.line(evening.squat, minor)
    assert (line.is_dropped, [step.code for step in line.trace][:1]) == (True, ["unsupervised"])


def test_move_undone_goes_back_with_its_loads(evening: Evening) -> None:
    hall = VenueFactory.create(name="School hall")
    change(evening, DoorStep("venue", value=hall.pk, now="School hall"))

    undo(evening)

    sheet = evening.sheet()
    assert (sheet.venue_name, evening.line(evening.squat).load) == ("Mill Lane gym", Mass(Decimal(60), "kg"))


def test_one_athlete_moves_alone_and_stays_there_when_the_others_move(evening: Evening) -> None:
    hall, road = VenueFactory.create(name="School hall"), VenueFactory.create(name="On the road")
    change(evening, DoorStep("venue", value=hall.pk, now="School hall"), card=evening.card())
    assert [evening.sheet(a).venue_name for a in (evening.athlete, evening.cast.team_mate)] == [
        "School hall",
        "Mill Lane gym",
    ]

    outcome = change(evening, DoorStep("venue", value=road.pk, now="On the road"))

    assert stays(outcome.plans) == [("", "elsewhere")]
    assert [evening.sheet(a).venue_name for a in (evening.athlete, evening.cast.team_mate)] == [
        "School hall",
        "On the road",
    ]
