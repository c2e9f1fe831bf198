"""The page on which a session is written: lines, blocks, parts, patterns, errors beside their cause."""

from __future__ import annotations

from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coachhub.coaching.notation import parse
from coachhub.desk.pages.writing import SessionPage
from coachhub.library.models import Swap
from coachhub.plans.dose import dose_of
from coachhub.plans.models import CircuitGroup, Prescription, PrescriptionSwap, Segment, Session
from tests.cast import Cast
from tests.factories import CircuitGroupFactory, ExerciseFactory, PrescriptionFactory, SegmentFactory

pytestmark = pytest.mark.django_db

HTMX = {"HX-Request": "true"}


@pytest.fixture
def coach(cast: Cast) -> Client:
    assert cast.prescription.pk
    return cast.client_of("coach")


def address(name: str, pk: int, **more: object) -> str:
    return reverse(f"desk:{name}", kwargs={"pk": pk, **more})


def page_of(coach: Client, session: Session) -> SessionPage:
    page: SessionPage = coach.get(address("session", session.pk)).context["page"]
    return page


def line(**typed: Any) -> dict[str, Any]:
    return {"how": "line", "exercise": "Romanian deadlift", "notation": "6", **typed}


def test_page_shows_each_line_with_what_goes_with_it(cast: Cast, coach: Client) -> None:
    group = cast.prescription.group
    CircuitGroup.objects.filter(pk=group.pk).update(rest_min_s=120, rest_max_s=150, rest_after_s=180, intent="strength")
    jump = PrescriptionFactory.create(
        group=group, sets=2, cue="stick it", ramp_up_sets=1, rest_after_s=90, pair_with=cast.prescription
    )
    PrescriptionSwap.objects.create(prescription=jump, exercise=ExerciseFactory.create(name="Box jump"))

    block = page_of(coach, cast.session).parts[0].blocks[0]

    assert block.head == ("rest 2:00–2:30 after a round", "3:00 after the block", "strength")
    assert [(row.line.label, row.dose, row.remarks) for row in block.lines] == [
        ("A1", "6", ()),
        ("A2", "2 × 6", ("stick it", "ramp-up sets: 1", "rest 1:30", "pairs with A1", "swap: Box jump")),
    ]


def test_page_costs_the_same_for_1_and_30_lines(cast: Cast, coach: Client) -> None:
    costs = []
    for number in (0, 29):
        PrescriptionFactory.create_batch(number, group=cast.prescription.group)
        for row in Prescription.objects.filter(swaps=None):
            PrescriptionSwap.objects.create(prescription=row, exercise=ExerciseFactory.create())
        with CaptureQueriesContext(connection) as asked:
            coach.get(address("session", cast.session.pk))
        costs.append(len(asked))

    # Three of them for the checks: what the club has set, the squad's ages, what was accepted.
    assert costs[0] == costs[1] <= 13


def test_empty_session_says_what_to_do(cast: Cast, coach: Client) -> None:
    Segment.objects.all().delete()

    html = coach.get(address("session", cast.session.pk)).content.decode()

    assert "No part yet. A session usually has a warm-up" in html
    assert f'action="{address("part_add", cast.session.pk)}"' in html


def test_reader_sees_the_session_without_a_way_to_change_it(cast: Cast, coach: Client) -> None:
    html = cast.client_of("assistant").get(address("session", cast.session.pk)).content.decode()

    assert ("Romanian deadlift" in html, address("line", cast.prescription.pk) in html) == (True, False)
    assert "<form" not in html.split('id="work"')[1].split("</main>")[0]


def test_line_opens_in_place_as_page_and_as_fragment(cast: Cast, coach: Client) -> None:
    url = address("line", cast.prescription.pk)

    whole, part = coach.get(url).content.decode(), coach.get(url, headers=HTMX).content.decode()

    assert ("<html" in whole, "<html" in part) == (True, False)
    for html in (whole, part):
        assert 'value="Romanian deadlift"' in html
        assert 'value="3 x 6"' in html
        assert "3 sets of 6 repetitions" in html


def test_line_is_saved_with_everything_typed(cast: Cast, coach: Client) -> None:
    front = ExerciseFactory.create(name="Front squat")
    other = PrescriptionFactory.create(group=cast.prescription.group)
    goblet, box = ExerciseFactory.create(name="Goblet squat"), ExerciseFactory.create(name="Box squat")
    Swap.objects.create(exercise=front, to=goblet, reason="easier")
    typed = line(
        exercise="front squat",
        notation="2 x 5/side @ 75% t3110",
        ramp_up_sets="3",
        rest_after_s="1:30",
        cue="elbows up",
        swaps=[goblet.pk],
        more_swap="box squat",
        pair=other.pk,
    )

    response = coach.post(address("line", cast.prescription.pk), typed)

    row = Prescription.objects.get(pk=cast.prescription.pk)
    assert response.headers["Location"] == f"{address('session', cast.session.pk)}?at=line-{row.pk}"
    assert (row.exercise, dose_of(row, 3, 3)) == (front, parse("2 x 5/side @ 75% t3110"))
    assert (row.ramp_up_sets, row.rest_after_s, row.cue, row.pair_with) == (3, 90, "elbows up", other)
    assert [swap.exercise for swap in row.swaps.all()] == [goblet, box]
    assert Session.objects.get().revision == 2


def test_new_line_is_added_and_the_next_one_is_open(cast: Cast, coach: Client) -> None:
    url = address("line_add", cast.prescription.group_id)

    response = coach.post(url, line(notation="3 x 8 @ 2 RIR"), headers=HTMX, follow=True)

    assert [row.low for row in cast.prescription.group.prescriptions.all()] == [6, 8]
    assert response.redirect_chain == [(url, 302)]
    assert response.context["page"].parts[0].blocks[0].next_label == "A3"


def test_new_line_takes_the_suggested_exercise(cast: Cast, coach: Client) -> None:
    url = f"{address('line_add', cast.prescription.group_id)}?exercise=Romanian+deadlift"

    form = coach.get(url).context["page"].parts[0].blocks[0].add_editor.form

    assert form["exercise"].value() == "Romanian deadlift"
    assert form.fields["notation"].widget.attrs["autofocus"] is True


@pytest.mark.parametrize(
    ("notation", "marked", "message"),
    [
        ("4-6 @ 2.5 kgg", "<mark>kgg</mark>", "&quot;kgg&quot;: a load ends in kg, lb, % or RIR."),
        ("8 @ 10000 kg", "<mark>10000</mark>", "&quot;10000&quot;: a load is above 0 and at most 500 kg."),
        ("8 @ -20 kg", "<mark>-</mark>", "After @ comes a load: 60 kg, 2 x 20 kg, 75%, 2 RIR, last"),
        ("five", "<mark>five</mark>", "An amount comes here: repetitions such as 8 or 6-8"),
        ("4 x 6", "<mark>4</mark> x 6", "Block A has 3 rounds: write up to 3, or change the rounds."),
        ("2-4 x 6", "<mark>2-4</mark> x 6", "Block A has 3 rounds: write up to 3, or change the rounds."),
    ],
)
def test_dose_that_cannot_be_read_is_marked_where_it_is_wrong(
    cast: Cast, coach: Client, notation: str, marked: str, message: str
) -> None:
    PrescriptionFactory.create(group=cast.prescription.group)
    block = cast.prescription.group_id

    saved = coach.post(address("line_add", block), line(notation=notation, cue="kept as typed"))
    checked = coach.get(address("dose_check", block), {"notation": notation})

    assert (saved.status_code, checked.status_code, Prescription.objects.count()) == (422, 200, 2)
    for html in (saved.content.decode(), checked.content.decode()):
        assert marked in html
        assert message in html
    assert 'value="kept as typed"' in saved.content.decode()


def test_dose_check_reads_the_line_out(cast: Cast, coach: Client) -> None:
    url = address("dose_check", cast.prescription.group_id)

    html = coach.get(url, {"notation": "4x5 each leg @75%", "line": str(cast.prescription.pk)}).content.decode()

    assert "4 × 5/side @ 75%" in html
    assert "4 sets of 5 repetitions each side, with 75% of the known best" in html


def test_dose_in_a_block_of_one_round_names_the_way_out(cast: Cast, coach: Client) -> None:
    group = CircuitGroupFactory.create(
        segment=SegmentFactory.create(session=cast.session, kind="warm_up"), rounds_min=1
    )
    PrescriptionFactory.create(group=group)

    html = coach.get(address("dose_check", group.pk), {"notation": "2 x 10"}).content.decode()

    assert "This block has 1 round: write 1, change the rounds, or give the exercise a block of its own." in html


@pytest.mark.parametrize(
    ("typed", "error"),
    [
        ("swimming", "No exercise of this name is in the library."),
        ("squat", "Which one? Write one of these names in full: Squat jump, Back squat."),
        ("", "This field is required."),
    ],
)
def test_exercise_that_is_not_clear_is_said_beside_it(cast: Cast, coach: Client, typed: str, error: str) -> None:
    ExerciseFactory.create(name="Back squat")
    ExerciseFactory.create(name="Squat jump")

    response = coach.post(address("line_add", cast.prescription.group_id), line(exercise=typed, notation="8 @ 2 RIR"))

    form = response.context["page"].parts[0].blocks[0].add_editor.form
    assert (response.status_code, form.errors) == (422, {"exercise": [error]})
    assert 'value="8 @ 2 RIR"' in response.content.decode()
