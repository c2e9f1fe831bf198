"""Finding exercises: what matches, what comes first, what it costs."""

from __future__ import annotations

from typing import Any

import pytest

from coachhub.base.clock import now
from coachhub.library.models import Exercise, ExerciseAlias
from coachhub.library.queries import for_list, search, whole_exercises
from tests.factories import ExerciseFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def library() -> None:
    ExerciseFactory.create(name="Back squat", patterns=["squat"], needs=[["barbell"], ["rack"]])
    ExerciseFactory.create(name="Squat jump", patterns=["squat", "jump"], segment="athleticism")
    ExerciseFactory.create(name="Wall sit", patterns=["squat"], needs=[["wall"]])
    row = ExerciseFactory.create(
        name="Single-arm row", patterns=["pull"], needs=[["dumbbell", "kettlebell"], ["bench"]]
    )
    ExerciseAlias(exercise=row, name="Sawing pull").save()
    ExerciseFactory.create(name="Élan lunge", patterns=["lunge"], needs=[["dumbbell"]])
    ExerciseFactory.create(name="Squat put away", patterns=["squat"], archived_at=now())


def names(text: str, **filters: Any) -> list[str]:
    return [exercise.name for exercise in search(text, **filters)]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("squat", ["Back squat", "Squat jump", "Wall sit"]),
        ("SQUAT j", ["Squat jump"]),
        ("jump squat", ["Squat jump"]),
        ("elan", ["Élan lunge"]),
        ("saw", ["Single-arm row"]),
        ("single arm", ["Single-arm row"]),
        ("dumb", ["Élan lunge", "Single-arm row"]),
        ("squat barbell", ["Back squat"]),
        ("row barbell", []),
        ("%", []),
        ("_", []),
        ("zzz", []),
    ],
)
def test_search_finds_by_name_other_name_pattern_and_equipment(library: None, text: str, expected: list[str]) -> None:
    assert names(text) == expected


def test_search_without_words_lists_everything_in_use_by_name(library: None) -> None:
    assert names(" ") == ["Back squat", "Élan lunge", "Single-arm row", "Squat jump", "Wall sit"]


def test_search_ranks_by_where_the_name_matches() -> None:
    for name in ("Throwing grown", "Chest-supported row", "Row to hip", "Rowing hold", "Narrow grip"):
        ExerciseFactory.create(name=name)
    ExerciseAlias(exercise=ExerciseFactory.create(name="Inverted hang"), name="Row from below").save()

    assert names("row") == [
        "Chest-supported row",
        "Row to hip",
        "Rowing hold",
        "Inverted hang",
        "Narrow grip",
        "Throwing grown",
    ]


def test_search_takes_a_blank_for_a_hyphen() -> None:
    for name in ("Press hold up", "Press-up"):
        ExerciseFactory.create(name=name)

    assert names("press up") == ["Press-up", "Press hold up"]


@pytest.mark.parametrize(
    ("filters", "expected"),
    [
        ({"pattern": "jump"}, ["Squat jump"]),
        ({"segment": "athleticism"}, ["Squat jump"]),
        ({"equipment": "kettlebell"}, ["Single-arm row"]),
        ({"pattern": "squat", "segment": "strength"}, ["Back squat", "Wall sit"]),
        ({"pattern": "no such"}, []),
        ({"kinds": frozenset()}, ["Squat jump"]),
        ({"kinds": frozenset({"wall"})}, ["Squat jump", "Wall sit"]),
        ({"kinds": frozenset({"barbell"})}, ["Squat jump"]),
        ({"kinds": frozenset({"kettlebell", "bench"})}, ["Single-arm row", "Squat jump"]),
        ({"kinds": frozenset({"dumbbell"})}, ["Élan lunge", "Squat jump"]),
    ],
)
def test_search_keeps_to_its_filters(library: None, filters: dict[str, Any], expected: list[str]) -> None:
    assert names("", **filters) == expected


@pytest.mark.parametrize("count", [1, 300])
def test_lists_cost_four_queries_however_long(count: int, django_assert_num_queries: Any) -> None:
    Exercise.objects.bulk_create(ExerciseFactory.build(name=f"Row {n}", search_key=f"row {n}") for n in range(count))

    with django_assert_num_queries(4):
        found = list(for_list(search("row")))

    assert len(found) == count


@pytest.mark.parametrize("count", [1, 30])
def test_whole_exercises_cost_eight_queries_however_many(count: int, django_assert_num_queries: Any) -> None:
    for n in range(count):
        ExerciseFactory.create(name=f"Row {n}", patterns=["pull"], regions=["shoulder"], needs=[["cable"]])

    with django_assert_num_queries(8):
        assert len(whole_exercises()) == count
