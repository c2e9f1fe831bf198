"""Adding, changing and putting away exercises; the starting library's newer text beside what the club changed."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from django.core.exceptions import PermissionDenied

from coachhub.base.actor import STAFF, WRITERS, Actor, ActorKind
from coachhub.library import actions_exercises as actions
from coachhub.library.content import Content, SwapContent, content_of
from coachhub.library.models import Exercise
from coachhub.library.queries import search, whole_exercises
from coachhub.library.starting import import_starting_library
from tests.factories import ExerciseFactory
from tests.library.rows import write_rows

pytestmark = pytest.mark.django_db

COACH = Actor(ActorKind.COACH)
BOX: dict[str, Any] = {"key": "box-squat", "name": "Box squat", "also": []}


def stored(name: str) -> Exercise:
    return whole_exercises().get(name=name)


@pytest.fixture
def squat(tmp_path: Path) -> Exercise:
    """A row of the starting library that the club has made its own."""
    import_starting_library(write_rows(tmp_path, BOX, {"swaps": [{"to": "box-squat", "reason": "easier"}]}))
    change(stored("Goblet squat"), why="Our words.")
    return stored("Goblet squat")


def change(exercise: Exercise, **fields: Any) -> bool:
    content = replace(content_of(exercise), **fields)
    reviewed = exercise.is_regions_reviewed
    return actions.change_exercise(actor=COACH, exercise=exercise, content=content, is_regions_reviewed=reviewed)


def text_of(name: str) -> Content:
    return content_of(stored(name))


def test_added_exercise_says_all_and_counts_as_unreviewed(squat: Exercise) -> None:
    swaps = (SwapContent("goblet-squat", "easier"), SwapContent(squat.swaps.get().to.ref, "spares", "knee"))
    content = replace(content_of(squat), name="Own squat", patterns=("squat", "trunk"), swaps=swaps)

    added = actions.add_exercise(actor=COACH, content=content, is_regions_reviewed=False)

    assert content_of(whole_exercises().get(pk=added.pk)) == content
    assert (added.origin_key, added.is_regions_reviewed, added.edited_at is None) == (None, False, False)
    assert added in search("own squat", show="unreviewed")


def test_swap_may_lead_to_an_exercise_of_the_clubs_own() -> None:
    own, other = ExerciseFactory.create(name="Own drill"), ExerciseFactory.create(name="Other drill")

    change(stored("Own drill"), swaps=(SwapContent(other.ref, "easier"),))

    assert (own.swaps.get().to, other.ref) == (other, f"#{other.pk}")


def test_change_without_a_difference_leaves_the_row_to_updates(tmp_path: Path) -> None:
    import_starting_library(write_rows(tmp_path, BOX))

    assert change(stored("Box squat")) is False
    assert stored("Box squat").edited_at is None


def test_changed_row_keeps_its_words_and_offers_the_newer_ones(squat: Exercise, tmp_path: Path) -> None:
    import_starting_library(write_rows(tmp_path, BOX, {"cues": ["Newer cue"], "why": "Newer words."}))

    row = stored("Goblet squat")
    newer = row.newer_text or {}
    assert (row.why, newer["why"], newer["cues"]) == (
        "Our words.",
        "Newer words.",
        [["", "Newer cue"]],
    )
    assert list(search("", show="newer")) == [row]


def test_same_text_again_is_not_newer(squat: Exercise, tmp_path: Path) -> None:
    import_starting_library(tmp_path)
    assert stored("Goblet squat").newer_text is None

    import_starting_library(write_rows(tmp_path, BOX, {"why": "Newer words."}))
    import_starting_library(write_rows(tmp_path, BOX, {"swaps": [{"to": "box-squat", "reason": "easier"}]}))
    assert stored("Goblet squat").newer_text is None


def test_taking_the_newer_text_replaces_all_and_hands_the_row_back_to_updates(squat: Exercise, tmp_path: Path) -> None:
    import_starting_library(write_rows(tmp_path, BOX, {"why": "Newer words.", "swaps": []}))

    actions.take_newer_text(actor=COACH, exercise=squat)

    row = stored("Goblet squat")
    assert (row.why, row.swaps.count(), row.newer_text, row.edited_at) == ("Newer words.", 0, None, None)
    import_starting_library(write_rows(tmp_path, BOX, {"why": "Newest words."}))
    assert text_of("Goblet squat").why == "Newest words."


def test_keeping_our_text_asks_again_only_for_a_later_one(squat: Exercise, tmp_path: Path) -> None:
    import_starting_library(write_rows(tmp_path, BOX, {"why": "Newer words."}))

    actions.keep_own_text(actor=COACH, exercise=squat)

    import_starting_library(tmp_path)
    assert (stored("Goblet squat").why, stored("Goblet squat").newer_text) == ("Our words.", None)
    import_starting_library(write_rows(tmp_path, BOX, {"why": "Newest words."}))
    assert stored("Goblet squat").newer_text is not None


def test_newer_text_with_a_name_that_the_club_uses_is_refused(squat: Exercise, tmp_path: Path) -> None:
    change(squat, name="Our squat")
    ExerciseFactory.create(name="Cup squat")
    import_starting_library(write_rows(tmp_path, BOX, {"name": "Cup squat", "also": []}))

    with pytest.raises(actions.NameTakenError, match="Cup squat"):
        actions.take_newer_text(actor=COACH, exercise=squat)

    assert text_of("Our squat").why == "Our words."


def test_without_a_newer_text_nothing_is_taken_or_kept(squat: Exercise) -> None:
    before = content_of(squat)

    actions.take_newer_text(actor=COACH, exercise=squat)
    actions.keep_own_text(actor=COACH, exercise=squat)

    assert (text_of("Goblet squat"), stored("Goblet squat").edited_at) == (before, squat.edited_at)


def test_exercise_put_away_is_not_found_and_comes_back(squat: Exercise) -> None:
    actions.archive_exercise(actor=COACH, exercise=squat)
    assert (list(search("goblet")), list(search("goblet", show="archived"))) == ([], [squat])

    actions.bring_back_exercise(actor=COACH, exercise=squat)
    assert list(search("goblet")) == [squat]


@pytest.mark.parametrize("kind", sorted(STAFF - WRITERS))
def test_only_owner_and_coaches_change_the_library(squat: Exercise, kind: ActorKind) -> None:
    reader, content = Actor(kind), content_of(squat)

    with pytest.raises(PermissionDenied):
        actions.add_exercise(actor=reader, content=replace(content, name="Own"), is_regions_reviewed=True)
    with pytest.raises(PermissionDenied):
        actions.change_exercise(actor=reader, exercise=squat, content=content, is_regions_reviewed=False)
    for verb in (
        actions.archive_exercise,
        actions.bring_back_exercise,
        actions.take_newer_text,
        actions.keep_own_text,
    ):
        with pytest.raises(PermissionDenied):
            verb(actor=reader, exercise=squat)
    assert Exercise.objects.live().count() == 2
