"""What is wrong in the form of an exercise is said beside its field; what is right becomes the text."""

from __future__ import annotations

from typing import Any

import pytest

from coachhub.base.clock import now
from coachhub.library.content import SwapContent
from coachhub.library.forms_exercise_rows import ExerciseForms
from coachhub.library.models import Exercise, ExerciseAlias
from coachhub.library.queries import whole_exercises
from tests.factories import ExerciseFactory
from tests.library.sent import new

pytestmark = pytest.mark.django_db

FULL = {
    "family": " Lunge ",
    "family_rank": "9",
    "also": " Lunge row \n\nRow in a lunge ",
    "faults": "Short step\nKnee in",
    "demands": ["grip"],
    "equipment-0-kinds_0": "dumbbell",
    "equipment-0-kinds_3": "kettlebell",
    "load-knee": "working",
    "load-hip": "both",
    "load-is_reviewed": "on",
    "cues-0-text": "Long step",
    "cues-1-text": "Pull at the bottom",
    "cues-1-direction": "backward",
    "swaps-0-to": "split  SQUAT",
    "swaps-0-reason": "spares",
    "swaps-0-region": "shoulder",
}


def sent(changes: dict[str, Any] | None = None, own: Exercise | None = None, **counts: int) -> ExerciseForms:
    return ExerciseForms.sent(own, new(changes, **counts))


def test_form_becomes_the_text() -> None:
    ExerciseFactory.create(name="Split squat", origin_key="split-squat")
    form = sent(FULL, equipment=2, cues=3, swaps=2)

    assert form.is_valid()
    text = form.content()
    assert (text.name, text.also, text.faults) == (
        "Lunge with row",
        ("Lunge row", "Row in a lunge"),
        ("Short step", "Knee in"),
    )
    assert (text.patterns, text.directions, text.demands) == (("lunge", "pull"), ("backward",), frozenset({"grip"}))
    assert (text.equipment, text.regions) == ((("dumbbell", "kettlebell"),), (("hip", "both"), ("knee", "working")))
    assert (text.family, text.family_rank) == ("lunge", 9)
    assert text.cues == (("", "Long step"), ("backward", "Pull at the bottom"))
    assert text.swaps == (SwapContent("split-squat", "spares", "shoulder"),)
    assert (text.needs_supervision, form.is_reviewed) == (True, True)


@pytest.mark.parametrize(
    ("changes", "field", "error"),
    [
        ({"name": ""}, "name", "This field is required."),
        ({"name": "x" * 61}, "name", "Ensure this value has at most 60 characters (it has 61)."),
        ({"also": "x" * 61}, "also", f"“{'x' * 61}” is longer than 60 characters."),
        ({"also": "Row\nRow"}, "also", "“Row” is there twice."),
        ({"faults": "Back; neck"}, "faults", "No semicolon, please: each fault has its own line."),
        ({"faults": "\n".join(c * 99 for c in "abcd")}, "faults", "300 characters in all at most."),
        ({"patterns_0": "", "patterns_2": ""}, "patterns", "This field is required."),
        ({"patterns_2": "lunge"}, "patterns", "The same one is there twice."),
        ({"family": "lunge"}, "family_rank", "Which place does it have, from 1 for the easiest?"),
        ({"family_rank": "2"}, "family", "A place wants a family."),
        ({"family": "lunge", "family_rank": "x"}, "family_rank", "Write a whole number."),
        ({"load": ""}, "load", "This field is required."),
        ({"spotting": "x"}, "spotting", "Select a valid choice. x is not one of the available choices."),
        ({"why": "x" * 161}, "why", "Ensure this value has at most 160 characters (it has 161)."),
    ],
)
def test_mistake_is_said_beside_its_field(changes: dict[str, Any], field: str, error: str) -> None:
    form = sent(changes)

    assert (form.is_valid(), form.has_errors) == (False, True)
    assert form.main.errors == {field: [error]}


@pytest.mark.parametrize(
    ("row", "field", "error"),
    [
        ({"to": "Nothing"}, "to", "No exercise has this name."),
        ({"to": "lunge with row"}, "to", "An exercise cannot be swapped for itself."),
        ({"reason": ""}, "reason", "Why this one? Pick a reason."),
        ({"region": "knee"}, "region", "A region goes with “spares a body region”, and with no other reason."),
        ({"reason": "spares"}, "region", "A region goes with “spares a body region”, and with no other reason."),
    ],
)
def test_mistake_in_a_swap_is_said_beside_it(row: dict[str, str], field: str, error: str) -> None:
    ExerciseFactory.create(name="Split squat")
    own = ExerciseFactory.create(name="Lunge with row")
    values = {"to": "Split squat", "reason": "easier", "region": ""} | row

    form = sent({f"swaps-0-{name}": value for name, value in values.items()}, own=own, swaps=1)

    assert not form.is_valid()
    assert form.rows["swaps"].errors == [{field: [error]}]


def test_swap_twice_is_said_beside_the_second() -> None:
    squat = ExerciseFactory.create(name="Split squat")
    ExerciseAlias(exercise=squat, name="Static lunge").save()
    names = {"swaps-0-to": "Split squat", "swaps-1-to": "Static lunge"}

    form = sent(names | {"swaps-0-reason": "easier", "swaps-1-reason": "easier"}, swaps=2)

    assert form.rows["swaps"].errors == [{}, {"to": ["This swap is there twice."]}]


def test_name_of_another_exercise_beats_an_other_name() -> None:
    other, named = ExerciseFactory.create(name="Lunge"), ExerciseFactory.create(name="Split squat")
    ExerciseAlias(exercise=other, name="Split squat").save()

    form = sent({"swaps-0-to": "Split squat", "swaps-0-reason": "easier"}, swaps=1)

    assert form.is_valid()
    assert form.content().swaps == (SwapContent(named.ref, "easier"),)


def test_cue_for_a_direction_that_the_exercise_lacks_is_said_beside_it() -> None:
    form = sent({"cues-0-text": "Side on", "cues-0-direction": "lateral"}, cues=1)

    assert not form.is_valid()
    assert form.rows["cues"].errors == [{"direction": ["The exercise does not have this direction; add it above."]}]


def test_review_of_no_region_at_all_is_refused() -> None:
    form = sent({"load-is_reviewed": "on"})

    assert not form.is_valid()
    assert form.regions.errors == {"is_reviewed": ["Name at least one region first; every exercise loads something."]}


@pytest.mark.parametrize(
    ("is_away", "error"), [(False, "There is an exercise"), (True, "An exercise that was put away")]
)
def test_name_in_use_is_refused(is_away: bool, error: str) -> None:
    ExerciseFactory.create(name="LUNGE with rów", archived_at=now() if is_away else None)

    assert str(sent().main.errors["name"][0]).startswith(error)


def test_exercise_keeps_its_own_name() -> None:
    own = ExerciseFactory.create(name="Lunge with row")

    assert sent(own=own).is_valid()


def test_more_rows_keep_what_was_typed_and_judge_nothing() -> None:
    form = sent({"name": "", "also": "A\nB", "cues-0-text": "x" * 90, "patterns_0": "hinge", "more": "cues"}, cues=1)

    assert (form.is_valid(), form.has_errors, len(form.rows["cues"].forms)) == (False, False, 4)
    assert form.rows["cues"].forms[0]["text"].value() == "x" * 90
    assert (form.main["also"].value(), form.main["patterns"].value()) == ("A\nB", ["hinge", None, "pull", None, None])


def test_nothing_sent_is_not_an_empty_exercise() -> None:
    assert ExerciseForms.sent(None, {}).is_valid() is False


def test_swap_to_what_is_put_away_stays_through_a_change() -> None:
    away = ExerciseFactory.create(name="Old drill", archived_at=now())
    own = ExerciseFactory.create(name="Lunge with row")
    own.swaps.create(to=away, reason="easier")

    form = ExerciseForms.of(whole_exercises().get(pk=own.pk))

    assert form.rows["swaps"].forms[0]["to"].value() == "Old drill"
    assert sent({"swaps-0-to": "Old drill", "swaps-0-reason": "easier"}, own=own, swaps=1).is_valid()
