"""Each kind of mistake in a file of the starting library is named, with its file and row."""

from __future__ import annotations

from pathlib import Path

import pytest

from coachhub.library.content import SwapContent
from coachhub.library.starting_file import LibraryError, read_starting_library
from tests.library.rows import write_rows

MISTAKES = [
    ({"key": "Goblet Squat"}, "a key has small letters, digits and single hyphens, and at most 80 characters."),
    ({"name": None}, "“name” is missing."),
    ({"name": "x" * 61}, f"“{'x' * 61}” in “name” is longer than 60 characters."),
    ({"name": " Goblet squat"}, "“name” must be words without blanks around them."),
    ({"nmae": "Goblet squat"}, "“nmae” is not a field of an exercise."),
    ({"needs_supervision": "no"}, "“needs_supervision” has a value of the wrong type."),
    ({"also": ["Cup squat", "Cup squat"]}, "“Cup squat” appears twice in “also”."),
    ({"patterns": []}, "“patterns” must not be empty."),
    ({"patterns": ["squat", "squat"]}, "“squat” appears twice in “patterns”."),
    ({"equipment": ["dumbbell"]}, "“equipment” is a list of groups, each a list with at least one kind."),
    ({"equipment": [[]]}, "“equipment” is a list of groups, each a list with at least one kind."),
    ({"cues": ["x" * 81]}, f"“{'x' * 81}” in “cues” is longer than 80 characters."),
    ({"faults": ["Round back; heels up"]}, "“faults” take 300 characters in all, and no semicolon."),
    ({"faults": ["x" * 150, "y" * 150]}, "“faults” take 300 characters in all, and no semicolon."),
    ({"family": "squat"}, "“family” and “family_rank” (1 for the easiest) go together."),
    ({"family_rank": 2}, "“family” and “family_rank” (1 for the easiest) go together."),
    ({"family": "Squat", "family_rank": 1}, "a family is written in small letters."),
    ({"family": "x" * 41, "family_rank": 1}, f"“{'x' * 41}” in “family” is longer than 40 characters."),
    ({"family": "squat", "family_rank": "1"}, "“family_rank” has a value of the wrong type."),
    ({"swaps": [{"to": "box-squat"}]}, "a swap has “to”, “reason” and, where it spares one, “region”."),
    (
        {"swaps": [{"to": "box-squat", "reason": "spares"}]},
        "the swap to “box-squat” has a region exactly when its reason is “spares”.",
    ),
    (
        {"swaps": [{"to": "box-squat", "reason": "easier", "region": "knee"}]},
        "the swap to “box-squat” has a region exactly when its reason is “spares”.",
    ),
    ({"swaps": [{"to": "box-squatt", "reason": "easier"}]}, "the swap to “box-squatt” leads to no exercise."),
    ({"swaps": [{"to": "goblet-squat", "reason": "easier"}]}, "an exercise cannot be swapped for itself."),
    (
        {"swaps": [{"to": "box-squat", "reason": "easier"}, {"to": "box-squat", "reason": "easier"}]},
        "the swap to “box-squat” appears twice for the same reason.",
    ),
]
UNKNOWN_CODES = [
    ({"segment": "strenght"}, "strenght", "segment"),
    ({"laterality": "one"}, "one", "laterality"),
    ({"measure": "kilos"}, "kilos", "measure"),
    ({"load": "heavy"}, "heavy", "load"),
    ({"spotting": "yes"}, "yes", "spotting"),
    ({"patterns": ["sqat"]}, "sqat", "patterns"),
    ({"directions": ["up"]}, "up", "directions"),
    ({"demands": ["hard"]}, "hard", "demands"),
    ({"equipment": [["dumbell"]]}, "dumbell", "equipment"),
    ({"regions": {"leg": "both"}}, "leg", "regions"),
    ({"regions": {"knee": "left"}}, "left", "regions"),
    ({"cues": {"forward": ["Step on"]}}, "forward", "cues"),
    ({"swaps": [{"to": "box-squat", "reason": "nicer"}]}, "nicer", "reason of a swap"),
    ({"swaps": [{"to": "box-squat", "reason": "spares", "region": "leg"}]}, "leg", "region of a swap"),
]


def read_error(folder: Path) -> LibraryError:
    with pytest.raises(LibraryError) as caught:
        read_starting_library(folder)
    return caught.value


@pytest.mark.parametrize(("change", "sentence"), MISTAKES)
def test_row_with_a_mistake_is_named(tmp_path: Path, change: dict[str, object], sentence: str) -> None:
    key = str(change.get("key", "goblet-squat"))
    write_rows(tmp_path, {"key": "box-squat", "name": "Box squat"}, {"key": key, "name": "Goblet squat"} | change)

    error = read_error(tmp_path)

    assert (error.file, error.key, error.sentence) == ("rows.toml", key, sentence)
    assert str(error) == f"rows.toml: {key}: {sentence}"


@pytest.mark.parametrize(("change", "code", "field"), UNKNOWN_CODES)
def test_unknown_code_is_named_with_the_known_ones(
    tmp_path: Path, change: dict[str, object], code: str, field: str
) -> None:
    write_rows(tmp_path, {"key": "box-squat", "name": "Box squat"}, change)

    sentence = read_error(tmp_path).sentence

    assert sentence.partition(";")[0] == f"“{code}” is not known in “{field}”"


def test_key_used_twice_is_named_with_its_second_file(tmp_path: Path) -> None:
    write_rows(tmp_path, {"name": "One"}, file="a.toml")
    write_rows(tmp_path, {"name": "Two"}, file="b.toml")

    assert str(read_error(tmp_path)) == "b.toml: goblet-squat: this key is used twice."


def test_name_used_twice_but_for_an_accent_is_named(tmp_path: Path) -> None:
    write_rows(tmp_path, {"key": "one", "name": "Élan"}, {"key": "two", "name": "elan"})

    assert str(read_error(tmp_path)) == "rows.toml: two: the name “elan” is used twice."


def test_place_in_a_family_used_twice_is_named(tmp_path: Path) -> None:
    place = {"family": "squat", "family_rank": 2}
    write_rows(tmp_path, {"key": "one", "name": "One"} | place, {"key": "two", "name": "Two"} | place)

    assert str(read_error(tmp_path)) == "rows.toml: two: place 2 in “squat” is used twice."


def test_folder_without_exercises_fails(tmp_path: Path) -> None:
    assert read_error(tmp_path).sentence == "no .toml file in this folder holds an exercise."


def test_file_that_is_no_toml_fails(tmp_path: Path) -> None:
    (tmp_path / "rows.toml").write_text("[[exercise]\n", encoding="utf-8")

    assert read_error(tmp_path).sentence.startswith("the file cannot be read: ")


def test_file_with_other_tables_fails(tmp_path: Path) -> None:
    (tmp_path / "rows.toml").write_text("[[exercises]]\n", encoding="utf-8")

    assert read_error(tmp_path).sentence == "the file holds [[exercise]] tables and nothing else."


def test_row_is_read_as_written(tmp_path: Path) -> None:
    cues = {"all": ["Tall"], "forward": ["Step on"]}
    swaps = [{"to": "box-squat", "reason": "spares", "region": "knee"}]
    write_rows(
        tmp_path, {"key": "box-squat", "name": "Box squat"}, {"directions": ["forward"], "cues": cues, "swaps": swaps}
    )

    row = read_starting_library(tmp_path)[1]

    assert row.cues == (("", "Tall"), ("forward", "Step on"))
    assert row.swaps == (SwapContent("box-squat", "spares", "knee"),)
    assert row.equipment == (("dumbbell", "kettlebell"),)
    assert row.regions == (("hip", "working"), ("knee", "both"))
