"""The starting library comes in whole, again without harm, and never over what the club has edited."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from django.core import serializers

from coachhub.base.clock import now
from coachhub.library.models import Exercise, ExerciseAlias, Swap
from coachhub.library.starting import ImportReport, LibraryError, import_starting_library
from coachhub.library.writing import PARTS
from tests.factories import ExerciseFactory
from tests.library.rows import write_rows
from tests.library.starting_library import read_library

pytestmark = pytest.mark.django_db

BOX: dict[str, Any] = {"key": "box-squat", "name": "Box squat", "also": []}
GOBLET: dict[str, Any] = {"swaps": [{"to": "box-squat", "reason": "easier"}]}


def everything() -> list[dict[str, Any]]:
    """Every row of every table, without its own number."""
    querysets = [Exercise.objects.order_by("origin_key"), *(part.order_by("pk") for part in PARTS)]
    return [row["fields"] for found in querysets for row in serializers.serialize("python", found)]


def test_import_of_the_library_that_comes_along_is_whole() -> None:
    rows = read_library()

    report = import_starting_library()

    assert report == ImportReport(added=len(rows), updated=0, kept=0)
    assert Exercise.objects.filter(is_regions_reviewed=True, archived_at=None).count() == len(rows)
    assert Swap.objects.count() == sum(len(row["swaps"]) for row in rows)


def test_import_again_changes_nothing() -> None:
    import_starting_library()
    before = everything()

    report = import_starting_library()

    assert report == ImportReport(added=0, updated=len(read_library()), kept=0)
    assert everything() == before


def test_import_costs_the_same_number_of_queries_for_one_and_many(
    tmp_path: Path, django_assert_max_num_queries: Any
) -> None:
    write_rows(tmp_path, BOX)
    with django_assert_max_num_queries(25):
        import_starting_library(tmp_path)
    with django_assert_max_num_queries(60):
        import_starting_library()


def test_import_fills_each_part_of_a_row(tmp_path: Path) -> None:
    import_starting_library(write_rows(tmp_path, BOX, GOBLET))

    squat = Exercise.objects.get(origin_key="goblet-squat")

    assert (squat.name, squat.search_key, squat.load_meaning) == ("Goblet squat", "goblet squat", "single")
    assert (squat.is_deep_range, squat.is_impact, squat.needs_supervision) == (True, False, False)
    assert list(squat.patterns.values_list("pattern", flat=True)) == ["squat"]
    assert list(squat.regions.values_list("region", "side_sense")) == [("hip", "working"), ("knee", "both")]
    assert list(squat.needs.values_list("group", "kind")) == [(0, "dumbbell"), (0, "kettlebell")]
    assert list(squat.cues.values_list("text", flat=True)) == ["Weight close", "Elbows inside the knees"]
    assert list(squat.aliases.values_list("name", "search_key")) == [("Cup squat", "cup squat")]
    assert list(squat.swaps.values_list("to__name", "reason", "region")) == [("Box squat", "easier", "")]


def test_import_of_a_row_without_regions_leaves_it_unreviewed(tmp_path: Path) -> None:
    import_starting_library(write_rows(tmp_path, {"regions": None}))

    assert Exercise.objects.get().is_regions_reviewed is False


def test_import_updates_a_row_that_nobody_edited(tmp_path: Path) -> None:
    import_starting_library(write_rows(tmp_path, BOX, GOBLET))
    before = Exercise.objects.get(origin_key="goblet-squat").pk

    report = import_starting_library(write_rows(tmp_path, BOX, {"name": "Squat with a cup", "also": ["Goblet"]}))

    assert report == ImportReport(added=0, updated=2, kept=0)
    assert Exercise.objects.get(pk=before).name == "Squat with a cup"
    assert list(ExerciseAlias.objects.values_list("name", flat=True)) == ["Goblet"]
    assert not Swap.objects.exists()


def test_import_leaves_an_edited_row_alone(tmp_path: Path) -> None:
    import_starting_library(write_rows(tmp_path, BOX, GOBLET))
    Exercise.objects.filter(origin_key="goblet-squat").update(name="Our squat", edited_at=now())

    report = import_starting_library(write_rows(tmp_path, BOX | {"why": "New words."}, {"patterns": ["lunge"]}))

    squat = Exercise.objects.get(origin_key="goblet-squat")
    assert report == ImportReport(added=0, updated=1, kept=1)
    assert (squat.name, [p.pattern for p in squat.patterns.all()], squat.swaps.count()) == ("Our squat", ["squat"], 1)
    assert Exercise.objects.get(origin_key="box-squat").why == "New words."


def test_import_leaves_the_clubs_own_and_archived_rows_alone(tmp_path: Path) -> None:
    own = ExerciseFactory.create(name="Own drill", patterns=["agility"])
    import_starting_library(write_rows(tmp_path, BOX))
    Exercise.objects.filter(origin_key="box-squat").update(archived_at=now())

    import_starting_library(tmp_path)

    assert [p.pattern for p in Exercise.objects.get(pk=own.pk).patterns.all()] == ["agility"]
    assert Exercise.objects.get(origin_key="box-squat").is_archived


def test_import_with_a_mistake_writes_nothing(tmp_path: Path) -> None:
    write_rows(tmp_path, BOX, {"swaps": [{"to": "gone", "reason": "easier"}]})

    with pytest.raises(LibraryError, match=r"rows\.toml: goblet-squat: the swap to “gone” leads to no exercise\."):
        import_starting_library(tmp_path)

    assert not Exercise.objects.exists()


def test_import_of_a_name_that_the_club_uses_fails_and_writes_nothing(tmp_path: Path) -> None:
    ExerciseFactory.create(name="goblet squat")
    write_rows(tmp_path, BOX, {})

    with pytest.raises(LibraryError, match="the club has another exercise called “Goblet squat”"):
        import_starting_library(tmp_path)

    assert Exercise.objects.count() == 1
