"""How long the session takes, beside its writing and while a line is typed."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from coachhub.desk.pages.timing import Piece, TimePanel
from coachhub.plans.models import CircuitGroup, Session
from tests.cast import Cast
from tests.factories import CircuitGroupFactory, ExerciseFactory, PrescriptionFactory, SegmentFactory

pytestmark = pytest.mark.django_db

# A1 of the cast, 3 rounds of 6 with a bar and no rest written: 60 + 3 x 18.
A_S = 114


@pytest.fixture
def coach(cast: Cast) -> Client:
    assert cast.prescription.pk
    return cast.client_of("coach")


def address(name: str, pk: int) -> str:
    return reverse(f"desk:{name}", kwargs={"pk": pk})


def time_of(coach: Client, session: Session) -> TimePanel:
    panel: TimePanel = coach.get(address("session", session.pk)).context["page"].time
    return panel


def plain(text: str) -> str:
    return text.replace("\N{NO-BREAK SPACE}", " ")


def test_parts_and_blocks_stand_in_the_order_of_the_day(cast: Cast, coach: Client) -> None:
    segment = cast.prescription.group.segment
    b = CircuitGroupFactory.create(segment=segment, position=1, rounds_min=1, rest_after_s=60)
    PrescriptionFactory.create(group=b, low=40, dose_kind="hold", exercise__load_meaning="none")
    CircuitGroup.objects.filter(pk=cast.prescription.group_id).update(rest_min_s=60, rest_max_s=90)
    SegmentFactory.create(session=cast.session, kind="warm_up", position=0, minutes=10)
    segment.position = 1
    segment.save()
    SegmentFactory.create(session=cast.session, kind="cool_down", position=2, minutes=5)

    panel = time_of(coach, cast.session)

    assert panel.pieces == (
        Piece("before", 10, 0, 600),
        Piece("A", 5, 600, A_S + 2 * 90),
        Piece("B", 2, 894, 30 + 40),
        Piece("after", 5, 964, 300),
    )
    assert (panel.title, plain(panel.words)) == ("22 of 60 minutes", "before 10 · A 5 · B 2 · after 5 · free 38")
    assert panel.notes == ()


def test_over_the_slot_is_a_note_with_what_leaving_out_gives(cast: Cast, coach: Client) -> None:
    Session.objects.update(slot_minutes=10)
    b = CircuitGroupFactory.create(segment=cast.prescription.group.segment, position=1, is_optional=True)
    PrescriptionFactory.create(group=b, low=300, dose_kind="time", exercise__load_meaning="none")
    CircuitGroup.objects.update(rest_min_s=60)

    panel = time_of(coach, cast.session)

    assert (panel.title, plain(panel.words)) == ("22 of 10 minutes", "A 4 · B 18 · over 12")
    assert panel.notes == ("12 min over the slot.", "Without what is optional it takes 4 min.")
    assert (panel.slot_s, panel.over_s) == (600, A_S + 120 + 30 + 3 * 300 + 120 - 600)


def test_what_no_longer_fits_its_part_and_a_missing_rest_are_named(cast: Cast, coach: Client) -> None:
    warm_up = SegmentFactory.create(session=cast.session, kind="warm_up", position=1, minutes=1)
    run = CircuitGroupFactory.create(segment=warm_up, rounds_min=1)
    PrescriptionFactory.create(group=run, low=90, dose_kind="time", exercise__load_meaning="none")

    assert time_of(coach, cast.session).notes == (
        "Warm-up: what is written takes about 2 min; it is given 1.",
        "No rest is written between the rounds of A, so none is counted.",
    )


def test_empty_session_has_its_whole_slot(cast: Cast, coach: Client) -> None:
    cast.prescription.delete()

    panel = time_of(coach, cast.session)

    assert (panel.title, plain(panel.words), panel.pieces) == ("0 of 60 minutes", "free 60", ())


@pytest.mark.parametrize(
    ("typed", "minutes"),
    [("6", 2), ("10 x 6", 4), ("3 x 6 t6060", 5)],
)
def test_typed_dose_says_what_the_session_would_take(cast: Cast, coach: Client, typed: str, minutes: int) -> None:
    query = {"notation": typed, "line": str(cast.prescription.pk)}

    html = plain(coach.get(address("dose_check", cast.prescription.group_id), query).content.decode())

    assert f"With it {minutes} of 60 minutes: A {minutes} · free {60 - minutes}" in html


def test_typed_dose_of_a_new_line_comes_on_top(cast: Cast, coach: Client) -> None:
    ExerciseFactory.create()

    html = coach.get(address("dose_check", cast.prescription.group_id), {"notation": "60 s"}).content.decode()

    # 60 + 3 x (18 + 30 + 60) + 2 x 30 for the way back to A1
    assert "With it 8 of 60 minutes" in html
