"""History, each row traceable to its entry; known bests and start loads."""

from __future__ import annotations

from decimal import Decimal
from typing import Any
from uuid import uuid4

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coachhub.base.clock import now, today
from coachhub.cards.actions import EntryDraft, log_entries, mark_set
from coachhub.cards.models import EntryKind, KnownBest, SetEntry, SetQuality
from coachhub.coaching.facts import Mass
from coachhub.desk.pages.cards_history import BestsPage, ExerciseHistoryPage, HistoryPage
from tests.cards.conftest import Evening
from tests.desk.evening import restrict_knee, tap_round
from tests.factories import KnownBestFactory, SetEntryFactory, days_ago


def log(evening: Evening, load: int, *, by_phone: bool = False, **values: Any) -> SetEntry:
    draft = EntryDraft(uuid4(), evening.squat.line_key, 1, now(), reps=5, load=Mass(Decimal(load), "kg"), **values)
    actor = evening.phone if by_phone else evening.coach
    return log_entries(actor=actor, card=evening.card(), drafts=[draft])[0].entry


def lines(evening: Evening) -> list[tuple[int, str, str, str, bool]]:
    """(entry, set, standing, writer, counts) of the front squat."""
    page = ExerciseHistoryPage.of(evening.coach, evening.athlete.pk, evening.squat.exercise_id, "")
    return [(o.entry.pk, o.text, o.standing, o.writer, o.counts) for card in page.cards for o in card.lines]


def exercise_url(evening: Evening, pk: int) -> str:
    return reverse("desk:history_exercise", kwargs={"pk": evening.athlete.pk, "exercise_pk": pk})


@pytest.fixture
def coach(evening: Evening) -> Client:
    return evening.cast.client_of("coach")


def test_every_row_names_its_entry_and_who_wrote_it(evening: Evening) -> None:
    entry = log(evening, 60, by_phone=True)

    assert lines(evening) == [(entry.pk, "60 kg × 5", "", "own phone", True)]


def test_correction_shows_what_it_replaces_struck_through(evening: Evening, coach: Client) -> None:
    wrong = log(evening, 600, by_phone=True)
    right = log(evening, 60, seq=2, supersedes_uuid=wrong.uuid)

    assert lines(evening) == [
        (wrong.pk, "600 kg × 5", f"replaced by no. {right.pk}", "own phone", False),
        (right.pk, "60 kg × 5", "", "Cato Lind", True),
    ]
    address = exercise_url(evening, evening.squat.exercise_id)
    assert "<s>600 kg × 5</s>" in coach.get(address).content.decode()


def test_second_version_and_set_taken_back_do_not_count(evening: Evening) -> None:
    first, second = log(evening, 60), log(evening, 65, seq=2)
    assert [(pk, counts) for pk, *_, counts in lines(evening)] == [(first.pk, False), (second.pk, True)]

    void = log(evening, 65, seq=3, kind=EntryKind.VOID, supersedes_uuid=second.uuid)

    assert [(pk, standing, counts) for pk, _text, standing, _writer, counts in lines(evening)] == [
        (first.pk, "another entry stands for this set", False),
        (second.pk, f"replaced by no. {void.pk}", False),
        (void.pk, "taken back", False),
    ]


def test_flag_and_mark_are_told(evening: Evening, coach: Client) -> None:
    restrict_knee(evening, evening.athlete, kind="exercise", region="", exercise=evening.cast.exercise)
    draft = EntryDraft(uuid4(), evening.hinge.line_key, 1, now(), reps=5, load=Mass(Decimal(60), "kg"))
    entry = log_entries(actor=evening.coach, card=evening.card(), drafts=[draft])[0].entry
    mark_set(actor=evening.coach, entry=entry, quality=SetQuality.SHAKY)

    address = reverse(
        "desk:history_exercise", kwargs={"pk": evening.athlete.pk, "exercise_pk": evening.cast.exercise.pk}
    )
    text = coach.get(address).content.decode()

    assert [words in text for words in ("against a restriction", "shaky", f"no. {entry.pk}")] == [True] * 3


def test_exercises_done_are_listed_with_their_sets(evening: Evening) -> None:
    tap_round(evening, evening.athlete)

    page = HistoryPage.of(evening.coach, evening.athlete.pk)

    assert [(line.exercise.name, line.sets, line.last_on) for line in page.lines] == [
        ("Front squat", 1, today()),
        ("Split squat", 2, today()),
    ]


def test_no_history_leads_to_known_bests(evening: Evening, coach: Client) -> None:
    text = coach.get(reverse("desk:history", kwargs={"pk": evening.athlete.pk})).content.decode()

    bests = reverse("desk:known_bests", kwargs={"pk": evening.athlete.pk})
    assert [words in text for words in ("Nothing is logged yet", bests)] == [True, True]


@pytest.mark.parametrize("count", [1, 30])
def test_exercise_page_costs_as_much_for_thirty_days_as_for_one(evening: Evening, coach: Client, count: int) -> None:
    line = evening.card().revisions.get().lines.get(label="A1")
    for day in range(count):
        SetEntryFactory.create(line=line, on_date=days_ago(day))
    address = exercise_url(evening, evening.squat.exercise_id)

    with CaptureQueriesContext(connection) as queries:
        coach.get(address)

    assert len(queries) == 11


def test_days_are_paged(evening: Evening) -> None:
    line = evening.card().revisions.get().lines.get(label="A1")
    for day in range(12):
        SetEntryFactory.create(line=line, on_date=days_ago(day))

    pages = [ExerciseHistoryPage.of(evening.coach, evening.athlete.pk, evening.squat.exercise_id, n) for n in "12"]

    assert [len(page.pager) for page in pages] == [10, 2]


def best(evening: Evening, **changed: object) -> dict[str, object]:
    return {
        "exercise": evening.cast.exercise.pk,
        "load_value": "82,5",
        "load_unit": "kg",
        "reps": 3,
        "rir_half": 2,
        "on_date": today().isoformat(),
        "source": "test",
        **changed,
    }


def test_known_best_is_noted_once_however_often_it_is_sent(evening: Evening, coach: Client) -> None:
    address = reverse("desk:known_bests", kwargs={"pk": evening.athlete.pk})

    answers = [coach.post(address, best(evening)).status_code for _ in range(2)]

    assert answers == [302, 422]
    row = KnownBest.objects.get()
    assert (row.load_value, row.load_unit, row.reps, row.rir_half, row.noted_by_id) == (
        Decimal("82.5"), "kg", 3, 2, evening.coach.user_id,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"load_value": "-5"}, "load_value"),
        ({"load_value": "10000"}, "load_value"),
        ({"load_value": "lots"}, "load_value"),
        ({"load_value": "1301", "load_unit": "lb"}, "load_value"),
        ({"reps": 0}, "reps"),
        ({"reps": 31}, "reps"),
        ({"rir_half": 13}, "rir_half"),
        ({"on_date": "2199-01-01"}, "on_date"),
        ({"exercise": ""}, "exercise"),
    ],
)
def test_bad_best_is_said_beside_its_field(
    evening: Evening, coach: Client, changed: dict[str, object], field: str
) -> None:
    response = coach.post(reverse("desk:known_bests", kwargs={"pk": evening.athlete.pk}), best(evening, **changed))

    assert response.status_code == 422
    assert list(response.context["form"].errors) == [field]
    assert KnownBest.objects.count() == 0


def test_newest_best_and_newest_start_load_count(evening: Evening) -> None:
    squat = evening.cast.exercise
    common = {"athlete": evening.athlete, "exercise": squat}
    KnownBestFactory.create(**common, load_value=70, on_date=days_ago(20))
    KnownBestFactory.create(**common, load_value=80)
    KnownBestFactory.create(**common, load_value=40, source="coach", on_date=days_ago(30))

    page = BestsPage.of(evening.coach, evening.athlete)

    assert [(line.load, line.counts) for line in page.lines] == [("80 kg", True), ("70 kg", False), ("40 kg", True)]


def test_best_far_above_all_that_is_known_is_asked_about_once(evening: Evening, coach: Client) -> None:
    address = reverse("desk:known_bests", kwargs={"pk": evening.athlete.pk})
    KnownBest.objects.all().delete()
    coach.post(address, best(evening, load_value="80", on_date="2026-01-05"))
    asked = coach.post(address, best(evening, load_value="450"))
    errors = asked.context["form"].errors
    noted = coach.post(address, best(evening, load_value="450") | {"sure": "on"})

    assert (asked.status_code, errors["load_value"]) == (
        422, ["450 kg? If it is right, say so below and send again."]
    )  # fmt: skip
    assert (noted.status_code, KnownBest.objects.count()) == (302, 2)
