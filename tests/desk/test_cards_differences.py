"""What renewing would change, told before it is done."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coachhub.base.clock import now
from coachhub.cards.actions import renew_stale
from coachhub.cards.models import Card, CardRevision
from coachhub.desk.pages.cards_differences import DifferencesPage
from coachhub.library.models import Exercise
from coachhub.plans.actions_removal import remove_prescription
from coachhub.plans.models import CircuitGroup, Prescription, PrescriptionSwap, Session
from tests.cards.conftest import Evening
from tests.cast import Role
from tests.desk.evening import restrict_knee, tap_round
from tests.factories import AthleteFactory, KnownBestFactory, PrescriptionFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def coach(evening: Evening) -> Client:
    return evening.cast.client_of(Role.COACH)


def address(evening: Evening) -> str:
    return reverse("desk:assignment_differences", kwargs={"pk": evening.assignment.pk})


def page_of(client: Client, evening: Evening) -> DifferencesPage:
    page: DifferencesPage = client.get(address(evening)).context["page"]
    return page


def rewrite(evening: Evening, line: Prescription | None = None, **values: Any) -> None:
    if line:
        Prescription.objects.filter(pk=line.pk).update(**values)
    Session.objects.filter(pk=evening.session.pk).update(revision=evening.session.revision + 1)


def told(page: DifferencesPage) -> list[tuple[str, str]]:
    return [(one.title, one.text) for one in page.shared]


@pytest.mark.parametrize(
    ("values", "texts"),
    [
        ({"load": Decimal(50)}, ("load: 60 kg → 50 kg",)),
        ({"sets": 2, "low": Decimal(4)}, ("sets: 3 → 2", "amount: 5 → 4")),
        ({"high": Decimal(6)}, ("amount: 5 → 5–6",)),
        ({"cue": "Tall", "rest_after_s": 90}, ("rest after it: – → 1:30", "cue: – → Tall")),
        ({"tempo": "3110"}, ("tempo: – → 3110",)),
        ({"load_rule": "none", "load": None, "load_unit": ""}, ("load: 60 kg → –",)),
    ],
)
def test_what_changes_on_a_line_is_told_once_for_everyone(
    evening: Evening, coach: Client, values: dict[str, Any], texts: tuple[str, ...]
) -> None:
    rewrite(evening, evening.hinge, **values)

    page = page_of(coach, evening)

    assert told(page) == [("B1 Romanian deadlift", text) for text in texts]
    assert [(one.name, one.rows) for one in page.athletes] == [("Ingrid Moss", ()), ("Petra Vane", ())]


def test_blocks_new_and_removed_lines_are_told(evening: Evening, coach: Client) -> None:
    CircuitGroup.objects.filter(pk=evening.hinge.group_id).update(rounds_min=2, rounds_max=2, rest_min_s=90)
    PrescriptionFactory.create(group=evening.hinge.group, position=9, low=Decimal(30), exercise__name="Hip bridge")
    remove_prescription(actor=evening.coach, prescription=evening.split, title="A2")

    assert told(page_of(coach, evening)) == [
        ("Block B", "rounds: 3 rounds → 2 rounds"),
        ("Block B", "rest: – → 1:30"),
        ("B1 Romanian deadlift", "sets: 3 → 2"),
        ("B2 Hip bridge", "new: 30"),
        ("A2 Split squat", "no longer on the card"),
    ]


def test_what_is_one_athletes_own_stands_with_the_name(evening: Evening, coach: Client) -> None:
    restrict_knee(evening, evening.athlete)
    PrescriptionSwap.objects.filter(prescription=evening.squat).delete()
    put_away(evening.goblet)
    KnownBestFactory.create(athlete=evening.athlete, exercise=evening.cast.exercise, load_value=Decimal(40), reps=5)
    values = {"load_rule": "percent", "load": None, "load_unit": "", "percent": Decimal(75)}
    rewrite(evening, evening.hinge, low=Decimal(4), **values)

    page = page_of(coach, evening)

    assert told(page) == [("B1 Romanian deadlift", "amount: 5 → 4")]
    rows = {one.name: [(row.title, row.texts) for row in one.rows] for one in page.athletes}
    assert rows == {
        "Ingrid Moss": [
            ("A1 Front squat", ("left out for this athlete",)),
            ("B1 Romanian deadlift", ("load: 60 kg → 32.5 kg",)),
        ],
        "Petra Vane": [("B1 Romanian deadlift", ("load: 60 kg → find it",))],
    }


def test_few_whom_it_does_not_concern_are_named(evening: Evening, coach: Client) -> None:
    others = [AthleteFactory.create(given_name=f"No {n}", squad=evening.cast.squad) for n in range(6)]
    Card.objects.filter(assignment=evening.assign(*others)).update(assignment=evening.assignment)
    restrict_knee(evening, evening.athlete)
    rewrite(evening, evening.squat, cue="Tall")

    page = page_of(coach, evening)

    assert [(one.title, one.text, one.but) for one in page.shared] == [
        ("A1 Front squat", "cue: – → Tall", evening.athlete.name)
    ]
    assert [one.rows for one in page.athletes] == [()] * 8


def test_swap_that_comes_is_told(evening: Evening, coach: Client) -> None:
    PrescriptionSwap.objects.all().delete()
    put_away(evening.goblet)
    restrict_knee(evening, evening.athlete)
    renew_all(evening)
    PrescriptionSwap.objects.create(prescription=evening.squat, exercise=evening.goblet)
    rewrite(evening)

    page = page_of(coach, evening)

    rows = {one.name: [(row.title, row.texts) for row in one.rows] for one in page.athletes}
    assert rows["Ingrid Moss"] == [("A1 Goblet squat", ("back on the card: find it × 5",))]


def put_away(exercise: Exercise) -> None:
    """No longer to be found in the library."""
    exercise.archived_at = now()
    exercise.save()


def renew_all(evening: Evening) -> None:
    rewrite(evening)
    evening.session.refresh_from_db()
    renew_stale(actor=evening.coach, assignment=evening.assignment)


def test_renewed_card_would_not_change_again(evening: Evening, coach: Client) -> None:
    restrict_knee(evening, evening.athlete)
    rewrite(evening, evening.hinge, load=Decimal(50), ramp_up_sets=2, cue="Tall", tempo="3110")
    Prescription.objects.filter(pk=evening.squat.pk).update(cue="Elbows high")
    evening.session.refresh_from_db()
    renew_all(evening)
    rewrite(evening)

    page = page_of(coach, evening)

    assert (page.shared, [one.rows for one in page.athletes]) == ((), [(), ()])
    assert "Nothing changes on this card." in coach.get(address(evening)).content.decode()


def test_begun_and_up_to_date_cards_are_not_listed(evening: Evening, coach: Client) -> None:
    assert page_of(coach, evening).athletes == ()
    tap_round(evening, evening.athlete)
    rewrite(evening, evening.hinge, low=Decimal(4))

    page = page_of(coach, evening)

    assert [one.name for one in page.athletes] == ["Petra Vane"]
    assert [row.texts for row in page.athletes[0].rows] == [("amount: 5 → 4",)]


def test_looking_changes_nothing_and_readers_cannot_renew(evening: Evening, coach: Client) -> None:
    rewrite(evening, evening.hinge, low=Decimal(4))
    before = (CardRevision.objects.count(), list(Card.objects.values_list("digest", flat=True)))
    renew = reverse("desk:assignment_renew", kwargs={"pk": evening.assignment.pk})

    seen = [
        renew in evening.cast.client_of(role).get(address(evening)).content.decode() for role in ("coach", "assistant")
    ]

    assert seen == [True, False]
    assert before == (CardRevision.objects.count(), list(Card.objects.values_list("digest", flat=True)))


def test_page_costs_the_same_for_2_and_30_cards(evening: Evening, coach: Client) -> None:
    def cost() -> int:
        with CaptureQueriesContext(connection) as queries:
            assert len(page_of(coach, evening).athletes) > 1
        return len(queries)

    rewrite(evening, evening.hinge, low=Decimal(4))
    few = cost()
    others = [AthleteFactory.create(squad=evening.cast.squad) for _ in range(28)]
    Card.objects.filter(assignment=evening.assign(*others)).update(assignment=evening.assignment, session_revision=1)
    rewrite(evening)

    assert cost() == few
