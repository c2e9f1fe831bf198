"""Writing a session: blocks, parts, moving, removing, patterns."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from coachhub.desk.pages.writing import SessionPage
from coachhub.plans.models import CircuitGroup, Prescription, Segment, Session
from tests.cast import Cast
from tests.factories import CircuitGroupFactory, ExerciseFactory, PrescriptionFactory, SegmentFactory

pytestmark = pytest.mark.django_db

REST = "A rest is minutes and seconds such as 1:30, or seconds such as 45."


@pytest.fixture
def coach(cast: Cast) -> Client:
    assert cast.prescription.pk
    return cast.client_of("coach")


def address(name: str, pk: int, **more: object) -> str:
    return reverse(f"desk:{name}", kwargs={"pk": pk, **more})


def page_of(coach: Client, session: Session, query: str = "") -> SessionPage:
    page: SessionPage = coach.get(f"{address('session', session.pk)}{query}").context["page"]
    return page


def test_block_is_changed(cast: Cast, coach: Client) -> None:
    typed = {
        "rounds": "3-4",
        "rest": "2:00-2:30",
        "rest_note": "or until under 120 a minute",
        "rest_after_s": "180",
        "intent": "strength",
        "is_optional": "on",
    }

    response = coach.post(address("block", cast.prescription.group_id), typed)

    group = CircuitGroup.objects.get()
    assert response.status_code == 302
    assert (group.rounds_min, group.rounds_max, group.rest_min_s, group.rest_max_s) == (3, 4, 120, 150)
    assert (group.rest_note, group.rest_after_s) == ("or until under 120 a minute", 180)
    assert (group.intent, group.is_optional, Session.objects.get().revision) == ("strength", True, 2)


@pytest.mark.parametrize(
    ("typed", "errors"),
    [
        ({"rounds": ""}, {"rounds": ["This field is required."]}),
        ({"rounds": "many"}, {"rounds": ["Rounds are a number or a range, such as 3 or 3-4."]}),
        ({"rounds": "4-3"}, {"rounds": ["Rounds go from 1 to 20, the smaller number first."]}),
        ({"rounds": "21"}, {"rounds": ["Rounds go from 1 to 20, the smaller number first."]}),
        ({"rest": "2:30-2:00"}, {"rest": ["The shorter rest comes first."]}),
        ({"rest": "-60"}, {"rest": [REST]}),
        ({"rest_after_s": "2 h"}, {"rest_after_s": [REST]}),
        ({"rest_after_s": "31 min"}, {"rest_after_s": ["A rest here is at most 30:00."]}),
    ],
)
def test_block_with_a_mistake_is_shown_again(
    cast: Cast, coach: Client, typed: dict[str, str], errors: dict[str, list[str]]
) -> None:
    response = coach.post(address("block", cast.prescription.group_id), {"rounds": "3", "intent": "kept", **typed})

    editor = response.context["page"].parts[0].blocks[0].head_editor
    assert (response.status_code, editor.form.errors, editor.form["intent"].value()) == (422, errors, "kept")


def test_block_shows_its_rest_as_it_can_be_typed(cast: Cast, coach: Client) -> None:
    CircuitGroup.objects.update(rest_min_s=45, rest_max_s=90, rest_after_s=180)

    html = coach.get(address("block", cast.prescription.group_id)).content.decode()

    assert 'value="45 s–1:30"' in html
    assert 'value="3:00"' in html


@pytest.mark.parametrize(("kind", "rounds"), [("strength", 3), ("warm_up", 1)])
def test_new_block_is_open_for_its_first_exercise(cast: Cast, coach: Client, kind: str, rounds: int) -> None:
    segment = SegmentFactory.create(session=cast.session, kind=kind, position=1)

    response = coach.post(address("block_add", segment.pk))

    group = segment.groups.get()
    assert response.headers["Location"] == address("line_add", group.pk)
    assert (group.rounds_min, group.rounds_max) == (rounds, rounds)


def test_part_is_added_and_changed(cast: Cast, coach: Client) -> None:
    coach.post(address("part_add", cast.session.pk), {"kind": "warm_up", "minutes": "8"})
    added = Segment.objects.get(kind="warm_up")
    coach.post(address("part", added.pk), {"kind": "cool_down", "minutes": ""})

    rows = list(Segment.objects.order_by("position").values_list("kind", "minutes"))
    assert rows == [("cool_down", None), ("strength", None)]


def test_part_with_a_mistake_is_shown_again(cast: Cast, coach: Client) -> None:
    response = coach.post(address("part_add", cast.session.pk), {"kind": "lunch", "minutes": "many"})

    assert (response.status_code, list(response.context["page"].part_form.errors)) == (422, ["kind", "minutes"])


@pytest.mark.parametrize("name", ["block_move", "part_move"])
def test_moving_changes_the_order_and_goes_on_arranging(cast: Cast, coach: Client, name: str) -> None:
    group = cast.prescription.group
    SegmentFactory.create(session=cast.session, position=1)
    CircuitGroupFactory.create(segment=group.segment, position=1)
    rows: dict[str, CircuitGroup | Segment] = {"block_move": group, "part_move": group.segment}
    row = rows[name]

    response = coach.post(address(name, row.pk, way="down"))

    assert response.headers["Location"] == f"{address('session', cast.session.pk)}?arrange=1"
    row.refresh_from_db()
    assert (row.position, page_of(coach, cast.session, "?arrange=1").is_arranging) == (1, True)
    assert coach.post(address(name, row.pk, way="sideways")).status_code == 404


@pytest.mark.parametrize("query", ["", "?arrange=1"])
def test_line_is_moved_and_the_page_stays_as_it_was_open(cast: Cast, coach: Client, query: str) -> None:
    other = PrescriptionFactory.create(group=cast.prescription.group, position=1, exercise__name="Box jump")
    page = f"{address('session', cast.session.pk)}{query}"

    response = coach.post(f"{address('line_move', cast.prescription.pk, way='down')}{query}")

    assert response.headers["Location"] == page
    rows = page_of(coach, cast.session, query).parts[0].blocks[0].lines
    assert [row.line.row.pk for row in rows] == [other.pk, cast.prescription.pk]
    assert rows[1].place == "A2 Romanian deadlift: place 2 of 2 in Block A"
    assert coach.post(address("line_move", other.pk, way="sideways")).status_code == 404


def test_line_is_put_where_it_was_dragged_to(cast: Cast, coach: Client) -> None:
    b = CircuitGroupFactory.create(segment=cast.prescription.group.segment, position=1)
    url = address("line_place", cast.prescription.pk)

    coach.post(url, {"group": CircuitGroupFactory.create().pk, "place": 0})
    coach.post(url, {"group": b.pk, "place": -1})
    assert Prescription.objects.get().group_id == cast.prescription.group_id

    coach.post(url, {"group": b.pk, "place": 0})
    assert Prescription.objects.get().group == b


def test_patterns_name_their_lines_and_a_gap_its_way_out(cast: Cast, coach: Client) -> None:
    ExerciseFactory.create(name="Barbell split squat", patterns=["lunge"], needs=[["barbell"]])
    ExerciseFactory.create(name="Cable row", patterns=["pull"], needs=[["cable"]])

    panel = page_of(coach, cast.session).patterns

    assert [(row.name, row.labels) for row in panel.primary] == [
        ("Hinge", "A1"), ("Squat", ""), ("Lunge", ""), ("Push", ""), ("Pull", "")
    ]  # fmt: skip
    url = f"{address('line_add', cast.prescription.group_id)}?exercise=Barbell+split+squat"
    assert [(note.text, note.add_url) for note in panel.notes] == [
        ("No squat yet.", ""),
        ("No lunge yet. Barbell split squat fits in block A.", url),
        ("No push yet.", ""),
        ("No pull yet.", ""),
    ]


def test_full_block_is_not_made_longer(cast: Cast, coach: Client) -> None:
    PrescriptionFactory.create_batch(3, group=cast.prescription.group)
    ExerciseFactory.create(name="Barbell split squat", patterns=["lunge"], needs=[["barbell"]])

    notes = {note.text: note.add_url for note in page_of(coach, cast.session).patterns.notes}

    assert notes["No lunge yet. Barbell split squat would need a block of its own."] == ""


def test_optional_block_is_not_proposed_while_there_is_another(cast: Cast, coach: Client) -> None:
    PrescriptionFactory.create_batch(2, group=cast.prescription.group)
    CircuitGroupFactory.create(segment=cast.prescription.group.segment, is_optional=True)
    ExerciseFactory.create(name="Reverse lunge", patterns=["lunge"])

    notes = [note.text for note in page_of(coach, cast.session).patterns.notes]

    assert notes[1] == "No lunge yet. Reverse lunge fits in block A."


def test_nothing_is_called_missing_before_a_line_counts(cast: Cast, coach: Client) -> None:
    Segment.objects.update(kind="warm_up")

    html = coach.get(address("session", cast.session.pk)).content.decode()

    assert (page_of(coach, cast.session).patterns.is_begun, "missing" in html) == (False, False)
