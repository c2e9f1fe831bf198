"""An exercise's text is the same from the file, from its rows, through JSON and through the form."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from django.conf import settings

from coachhub.library.content import Content, content_from, content_of
from coachhub.library.differences import differences
from coachhub.library.forms_exercise_rows import ExerciseForms
from coachhub.library.queries import whole_exercises
from coachhub.library.starting import import_starting_library
from coachhub.library.starting_file import read_starting_library
from tests.library.sent import as_sent

FILES = {row.key: row.text for row in read_starting_library(settings.BASE_DIR / "fixtures" / "library")}
SOME = ("lunge-in-directions", "nordic-hamstring-lower", "back-squat", "face-pull")


def test_text_comes_back_from_json_as_it_was() -> None:
    assert [content_from(json.loads(json.dumps(text.plain))) for text in FILES.values()] == list(FILES.values())


def test_digest_follows_the_text() -> None:
    text = FILES["back-squat"]

    assert replace(text, why="Other words.").digest != text.digest
    assert content_from(text.plain).digest == text.digest


@pytest.mark.django_db
def test_rows_hold_exactly_what_the_files_say() -> None:
    import_starting_library()

    rows = {exercise.ref: exercise for exercise in whole_exercises()}

    assert {key: content_of(row) for key, row in rows.items()} == FILES
    assert {key: row.starting_digest for key, row in rows.items()} == {k: text.digest for k, text in FILES.items()}


@pytest.mark.django_db
def test_form_sent_back_untouched_says_the_same() -> None:
    import_starting_library()

    for exercise in whole_exercises().filter(origin_key__in=SOME):
        form = ExerciseForms.sent(exercise, as_sent(ExerciseForms.of(exercise)))
        assert form.is_valid(), (exercise, form.main.errors)
        assert (form.content(), form.is_reviewed) == (FILES[exercise.ref], True)


def changed(text: Content) -> Content:
    return replace(
        text,
        name="Our squat",
        patterns=("squat", "trunk"),
        regions=text.regions[1:],
        equipment=(("barbell",), ("rack", "safety_arms")),
        cues=(*text.cues, ("vertical", "Stay long")),
        demands=frozenset({"grip"}),
        needs_supervision=not text.needs_supervision,
        swaps=text.swaps[1:],
    )


def test_differences_name_only_what_one_text_says() -> None:
    text = replace(FILES["goblet-squat"], demands=frozenset(), equipment=(("dumbbell", "kettlebell"),))
    region = dict(text.regions[:1])

    found = {
        str(row.label): (row.ours, row.theirs)
        for row in differences(changed(text), text, {text.swaps[0].to: "First swap"})
    }

    assert sorted(found) == sorted(
        ["Name", "Patterns", "Loads", "Needs", "Cues", "Demands", "Not unsupervised", "Swaps"]
    )
    assert found["Name"] == (["Our squat"], ["Goblet squat"])
    assert found["Patterns"] == (["trunk"], [])
    assert found["Needs"] == (["barbell", "rack or safety arms"], ["dumbbell or kettlebell"])
    assert found["Cues"] == (["vertical: Stay long"], [])
    assert found["Demands"] == (["heavy grip"], [])
    assert (found["Loads"][0], len(found["Loads"][1])) == ([], len(region))
    assert found["Swaps"][1][0].startswith("First swap (")


def test_differences_of_order_alone_show_both() -> None:
    text = replace(FILES["goblet-squat"], patterns=("squat", "trunk"))

    found = differences(replace(text, patterns=("trunk", "squat")), text, {})

    assert [(row.ours, row.theirs) for row in found] == [(["trunk", "squat"], ["squat", "trunk"])]
