"""Reading plans and whole sessions."""

from __future__ import annotations

from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from coachhub.base.clock import now
from coachhub.base.models import SegmentKind
from coachhub.coaching.coverage import Movement
from coachhub.coaching.notation import parse
from coachhub.library.models import ExerciseAlias, Swap
from coachhub.plans import queries
from coachhub.plans.models import Plan, PrescriptionSwap, Session
from coachhub.plans.tree import block_letter
from tests.cast import Cast, Role
from tests.factories import (
    CircuitGroupFactory,
    ExerciseFactory,
    PlanFactory,
    PrescriptionFactory,
    SegmentFactory,
    SessionFactory,
)

pytestmark = pytest.mark.django_db


def write(kinds: list[str], lines: int = 1, blocks: int = 1) -> Session:
    session = SessionFactory.create()
    for position, kind in enumerate(kinds):
        segment = SegmentFactory.create(session=session, kind=kind, position=position)
        for _block in range(blocks):
            group = CircuitGroupFactory.create(segment=segment)
            for _line in range(lines):
                exercise = ExerciseFactory.create(patterns=["squat"], regions=["knee"], needs=[["barbell"]])
                row = PrescriptionFactory.create(group=group, exercise=exercise)
                PrescriptionSwap.objects.create(prescription=row, exercise=ExerciseFactory.create())
    return session


def cost(session: Session) -> int:
    with CaptureQueriesContext(
        connection,
    ) as asked:
        tree = queries.load_session(session.pk)
        for exercise in tree.exercises.values():
            assert list(exercise.patterns.all()) is not None
            assert list(exercise.regions.all()) is not None
            assert list(exercise.needs.all()) is not None
    return len(asked)


def test_labels_follow_the_order_of_the_session() -> None:
    tree = queries.load_session(write(["warm_up", "strength", "conditioning"], lines=2, blocks=2).pk)

    assert [block.label for block in tree.blocks] == ["", "", "A", "B", "C", "D"]
    assert [line.label for line in tree.lines] == ["1", "2", "3", "4", "A1", "A2", "B1", "B2", "C1", "C2", "D1", "D2"]


def test_session_costs_as_many_queries_with_one_line_as_with_thirty() -> None:
    assert (cost(write(["strength"])), cost(write(["warm_up", "strength"], lines=5, blocks=3))) == (7, 7)


def test_session_without_a_part_is_read_all_the_same() -> None:
    session = SessionFactory.create()

    tree = queries.load_session(Session.objects.filter(pk=session.pk))

    assert (tree.session, tree.parts, tree.lines) == (session, (), ())


def test_session_that_is_not_there_is_said_so() -> None:
    with pytest.raises(Session.DoesNotExist):
        queries.load_session(Session.objects.none())


def test_line_tells_its_dose_with_and_without_sets() -> None:
    group = CircuitGroupFactory.create(rounds_min=3, rounds_max=4)
    for sets in (None, 2):
        PrescriptionFactory.create(group=group, sets=sets)

    one, fewer = queries.load_session(group.segment.session_id).lines

    assert (one.dose, one.written, one.sets) == (parse("6"), parse("6"), 4)
    assert (fewer.dose, fewer.written, fewer.sets) == (parse("6"), parse("2 x 6"), 2)


@pytest.mark.parametrize(("number", "letter"), [(0, "A"), (25, "Z"), (26, "AA"), (27, "AB"), (52, "BA")])
def test_block_letter_goes_on_after_z(number: int, letter: str) -> None:
    assert block_letter(number) == letter


@pytest.mark.parametrize(
    ("role", "names"),
    [
        (Role.OWNER, ["Autumn", "Every squad", "Théirs"]),
        (Role.COACH, ["Autumn", "Every squad"]),
        (Role.OTHER_COACH, ["Every squad", "Théirs"]),
        (Role.ASSISTANT, ["Autumn", "Every squad"]),
        (Role.HEAD_COACH, []),
        (Role.ATHLETE, []),
    ],
)
def test_plans_are_listed_to_those_who_may_read_them(cast: Cast, role: Role, names: list[str]) -> None:
    PlanFactory.create(name="Théirs", squad=cast.other_squad)
    PlanFactory.create(name="Autumn", squad=cast.squad)
    PlanFactory.create(name="Every squad", squad=None)
    PlanFactory.create(name="Last year's", squad=cast.squad, archived_at=now())

    assert [plan.name for plan in queries.plans_for(cast.actor_of(role))] == names


def test_plans_are_found_by_squad_and_by_letters_without_accents(cast: Cast) -> None:
    PlanFactory.create(name="Théirs", squad=cast.other_squad)
    plan = PlanFactory.create(name="Autumn", squad=cast.squad)
    SessionFactory.create(plan=plan)
    SessionFactory.create(plan=plan, archived_at=now())
    owner = cast.actor_of("owner")

    assert [plan.name for plan in queries.plans_for(owner, text="theirs")] == ["Théirs"]
    found = queries.plans_for(owner, squad_id=cast.squad.pk)
    assert [(plan.name, vars(plan)["session_count"]) for plan in found] == [("Autumn", 1)]


@pytest.mark.parametrize(
    ("role", "count"), [(Role.OWNER, 2), (Role.COACH, 1), (Role.OTHER_COACH, 1), (Role.ASSISTANT, 0), (Role.ATHLETE, 0)]
)
def test_plans_are_editable_by_coaches_of_their_squad(cast: Cast, role: Role, count: int) -> None:
    for squad in (cast.squad, cast.other_squad):
        SessionFactory.create(plan=PlanFactory.create(squad=squad))
    PlanFactory.create(squad=cast.squad, archived_at=now())
    actor = cast.actor_of(role)

    assert (Plan.objects.editable_by(actor).count(), Session.objects.editable_by(actor).count()) == (count, count)


def test_movements_are_what_trains_a_pattern_and_those_asked_for() -> None:
    lunge = ExerciseFactory.create(
        name="Lunge", patterns=["lunge", "landing"], needs=[["dumbbell", "kettlebell"], ["mat"]]
    )
    drill = ExerciseFactory.create(name="Drill", segment=SegmentKind.WARM_UP, patterns=["squat"])
    gone = ExerciseFactory.create(name="Gone", patterns=["squat"], archived_at=now())

    needs = (frozenset({"dumbbell", "kettlebell"}), frozenset({"mat"}))
    is_loaded = lunge.load_meaning != "none"
    assert queries.movements() == {lunge.pk: Movement(lunge.pk, "Lunge", ("lunge",), needs, is_loaded)}
    assert sorted(queries.movements([drill.pk, gone.pk])) == sorted([lunge.pk, drill.pk, gone.pk])


def test_exercise_is_named_by_name_then_other_name_then_letters() -> None:
    row, seated = ExerciseFactory.create(name="Row"), ExerciseFactory.create(name="Seated row")
    ExerciseAlias.objects.create(exercise=seated, name="Pulley")

    assert queries.exercises_named("row") == [row]
    assert queries.exercises_named("PULLEY") == [seated]
    assert queries.exercises_named("seat") == [seated]
    assert queries.exercises_named("ro") == [row, seated]
    assert queries.exercises_named("swim") == []


def test_swap_options_gather_the_reasons_for_one_exercise() -> None:
    squat, goblet = ExerciseFactory.create(), ExerciseFactory.create()
    gone = ExerciseFactory.create(archived_at=now())
    for to, reason in ((goblet, "easier"), (goblet, "equipment"), (gone, "easier")):
        Swap.objects.create(exercise=squat, to=to, reason=reason)

    options = queries.swap_options(squat)

    assert {pk: [swap.reason for swap in swaps] for pk, swaps in options.items()} == {
        goblet.pk: ["easier", "equipment"]
    }


def test_session_is_loaded_in_the_order_of_places() -> None:
    session = SessionFactory.create()
    for place in (1, 0):
        segment = SegmentFactory.create(session=session, position=place)
        for position in (2, 1):
            group = CircuitGroupFactory.create(segment=segment, position=position)
            PrescriptionFactory.create(group=group, position=5)
            PrescriptionFactory.create(group=group, position=4)

    tree = queries.load_session(session.pk)

    places = [(line.row.group.segment.position, line.row.group.position, line.row.position) for line in tree.lines]
    assert places == sorted(places)


def _squats(segment: str) -> list[str]:
    return [exercise.name for exercise in queries.exercise_picker("squat", segment=segment)]


def test_picker_puts_the_part_being_written_first_then_what_is_written_most() -> None:
    ExerciseFactory.create(name="Squat jump", segment="athleticism")
    ExerciseFactory.create(name="Back squat")
    PrescriptionFactory.create_batch(2, exercise=ExerciseFactory.create(name="Goblet squat"))
    PrescriptionFactory.create(exercise=ExerciseFactory.create(name="Front squat"))
    ExerciseFactory.create(name="Squatted row")
    ExerciseFactory.create(name="Wall sit", patterns=["squat"])

    strength = ["Goblet squat", "Front squat", "Back squat"]
    assert _squats("strength") == [*strength, "Squat jump", "Squatted row", "Wall sit"]
    assert _squats("athleticism") == ["Squat jump", *strength, "Squatted row", "Wall sit"]


def test_picker_puts_a_name_that_begins_so_above_others_alike() -> None:
    for name in ("Copenhagen side plank", "Side plank", "Side plank with row"):
        ExerciseFactory.create(name=name)

    found = [exercise.name for exercise in queries.exercise_picker("side pl")]

    assert found == ["Side plank", "Side plank with row", "Copenhagen side plank"]


def test_picker_gives_the_best_few_with_their_patterns(django_assert_num_queries: Any) -> None:
    for name in ("Front squat", "Back squat", "Wall sit"):
        ExerciseFactory.create(name=name, patterns=["squat", "jump"])

    with django_assert_num_queries(2):
        found = queries.exercise_picker("squat", limit=2)
        patterns = [[pattern.pattern for pattern in exercise.patterns.all()] for exercise in found]

    assert [exercise.name for exercise in found] == ["Back squat", "Front squat"]
    assert patterns == [["squat", "jump"]] * 2
    assert queries.exercise_picker(" ") == []
