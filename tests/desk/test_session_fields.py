"""Writing a line in plain fields, in the other shape, with directions and swaps; picking its exercise."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from coachhub.coaching.notation import parse
from coachhub.library.models import Exercise, Swap
from coachhub.plans.dose import dose_of
from coachhub.plans.models import Prescription, Session
from tests.cast import Cast
from tests.factories import ExerciseFactory, PrescriptionFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def coach(cast: Cast) -> Client:
    assert cast.prescription.pk
    return cast.client_of("coach")


def address(name: str, pk: int) -> str:
    return reverse(f"desk:{name}", kwargs={"pk": pk})


def line(**typed: Any) -> dict[str, Any]:
    return {"how": "line", "exercise": "Romanian deadlift", "notation": "6", **typed}


def dose_row(**typed: Any) -> dict[str, Any]:
    entry = {"dose_kind": "reps", "per": "", "load_rule": "none", "load_unit": "kg", "hands": "1", "low": "6"}
    return {"how": "fields", "exercise": "Romanian deadlift", **entry, **typed}


def test_line_is_saved_from_plain_fields(cast: Cast, coach: Client) -> None:
    typed = dose_row(sets="4", high="8", load_rule="fixed", load="22,5", hands="2", rir="1.5")

    coach.post(address("line", cast.prescription.pk), typed)

    row = Prescription.objects.get()
    assert dose_of(row, row.group.rounds_min, row.group.rounds_max) == parse("4 x 6-8 @ 2 x 22.5 kg 1.5 RIR")


@pytest.mark.parametrize(
    ("typed", "field"),
    [
        ({"load_rule": "fixed", "load": "-5"}, "load"),
        ({"load_rule": "fixed", "load": "10,000"}, "load"),
        ({"load_rule": "fixed", "load": "heavy"}, "load"),
        ({"load_rule": "percent", "percent": "140"}, "percent"),
        ({"sets": "9"}, "sets"),
        ({"load_rule": "magic"}, "load_rule"),
    ],
)
def test_plain_field_that_is_wrong_is_named(cast: Cast, coach: Client, typed: dict[str, str], field: str) -> None:
    PrescriptionFactory.create(group=cast.prescription.group)

    response = coach.post(address("line", cast.prescription.pk), dose_row(**typed))

    form = response.context["page"].parts[0].blocks[0].lines[0].editor.form
    assert (response.status_code, list(form.errors)) == (422, [field])


def switched(coach: Client, row: Prescription, typed: dict[str, object], how: str) -> Any:
    response = coach.post(address("line", row.pk), {**typed, "switch": how})
    return response.status_code, response.context["page"].parts[0].blocks[0].lines[0].editor.form


def test_dose_goes_from_one_shape_to_the_other_and_keeps_what_is_typed(cast: Cast, coach: Client) -> None:
    status, form = switched(coach, cast.prescription, line(notation="4 x 8 @ 60 kg", cue="tall"), "fields")

    assert (status, form.shape, form["cue"].value()) == (200, "fields", "tall")
    assert [form[name].value() for name in ("sets", "low", "load_rule", "load")] == ["4", "8", "fixed", "60"]

    status, form = switched(coach, cast.prescription, dose_row(low="30", dose_kind="hold", cue="tall"), "line")

    assert (status, form["notation"].value(), form["cue"].value()) == (200, "30 s hold", "tall")
    assert Session.objects.get().revision == 1


def test_dose_that_cannot_be_read_stays_in_its_shape(cast: Cast, coach: Client) -> None:
    status, form = switched(coach, cast.prescription, line(notation="8 @ 60 kgg"), "fields")

    assert (status, form.shape, form["notation"].value()) == (422, "line", "8 @ 60 kgg")


def lunge() -> Exercise:
    exercise = ExerciseFactory.create(name="Lunge in directions", directions=["forward", "lateral", "crossover"])
    Swap.objects.create(exercise=exercise, to=ExerciseFactory.create(name="Split squat"), reason="easier")
    return exercise


def test_directions_keep_the_order_that_was_chosen(cast: Cast, coach: Client) -> None:
    lunge()
    chosen = {"directions_1": "crossover", "directions_2": "", "directions_3": "forward"}

    coach.post(address("line", cast.prescription.pk), line(exercise="Lunge in directions", **chosen))

    assert Prescription.objects.get().directions == ["crossover", "forward"]


def test_direction_chosen_twice_is_refused(cast: Cast, coach: Client) -> None:
    lunge()
    chosen = {"directions_1": "forward", "directions_2": "forward"}

    response = coach.post(address("line", cast.prescription.pk), line(exercise="Lunge in directions", **chosen))

    form = response.context["page"].parts[0].blocks[0].lines[0].editor.form
    assert form.errors == {"directions": ["Each direction stands once in the order."]}


def test_picked_exercise_brings_its_swaps_and_directions(cast: Cast, coach: Client) -> None:
    lunge()
    url = address("line_options", cast.prescription.group_id)

    html = coach.get(url, {"exercise": "Lunge in directions", "line": str(cast.prescription.pk)}).content.decode()

    assert "Split squat (easier)" in html
    assert html.count("<select") == 3


def test_matches_are_options_to_pick(coach: Client) -> None:
    ExerciseFactory.create(name="Back squat", patterns=["squat"])

    html = coach.get(reverse("desk:exercise_matches"), {"q": "squ"}).content.decode()

    assert (
        '<li role="option" data-name="Back squat" aria-selected="false">Back squat <span class="soft">squat</span>'
        in html
    )
    assert coach.get(reverse("desk:exercise_matches"), {"q": " "}).content.strip() == b""
