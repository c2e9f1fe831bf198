"""A session as one table, notes that athletes left, and who may read them."""

from __future__ import annotations

import re
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coachhub.cards.models import SetEntry
from coachhub.desk.pages.cards_assignment import AssignmentPage
from coachhub.desk.pages.cards_today import TodayPage
from coachhub.desk.pages.day_table import DayTable
from coachhub.insight.actions import read_note
from coachhub.insight.models import SessionNote
from coachhub.people.models import Athlete
from tests.cards.conftest import Evening
from tests.cast import Role
from tests.desk.evening import restrict_knee, tap_round
from tests.factories import AthleteFactory, EffortLoadFactory, SessionNoteFactory, years_ago


@pytest.fixture
def coach(evening: Evening) -> Client:
    return evening.cast.client_of(Role.COACH)


def url(evening: Evening, name: str = "day_table") -> str:
    return reverse(f"desk:{name}", kwargs={"pk": evening.assignment.pk})


def table(evening: Evening, sort: str = "", role: Role = Role.COACH) -> DayTable:
    return DayTable.of(evening.cast.actor_of(role), evening.assignment.pk, sort)


def rename(athlete: Athlete, given: str, family: str) -> None:
    athlete.given_name, athlete.family_name = given, family
    athlete.save()


def test_planned_and_done_stand_below_each_other(evening: Evening) -> None:
    tap_round(evening, evening.athlete)
    tap_round(evening, evening.athlete, number=2)
    (row, _other) = table(evening).rows
    squat = row.cells[0]
    assert squat is not None
    assert (row.name, row.done, row.asked) == ("Ingrid Moss", 4, 11)
    assert (squat.line.planned, squat.line.done_text, squat.best) == ("4 × 60 kg × 5", "2 × 60 kg × 5", "60 kg × 5")


def test_columns_are_the_lines_in_their_order(evening: Evening) -> None:
    assert [(column.label, column.name) for column in table(evening).columns] == [
        ("A1", "Front squat"),
        ("A2", "Split squat"),
        ("B1", "Romanian deadlift"),
    ]


def test_swapped_exercise_is_named_in_its_cell_and_left_out_lines_are_not_there(evening: Evening) -> None:
    restrict_knee(evening, evening.athlete)
    row = next(row for row in table(evening).rows if row.name == "Ingrid Moss")
    assert [cell and (cell.line.name, cell.name) for cell in row.cells] == [
        ("Goblet squat", "Goblet squat"),
        None,
        ("Romanian deadlift", ""),
    ]


def lift(evening: Evening, athlete: Athlete, load: int) -> None:
    entry = tap_round(evening, athlete)[0]
    SetEntry.objects.filter(pk=entry.pk).update(load_value=load, load_kg=load)


def order(evening: Evening, sort: str) -> list[str]:
    return [row.name for row in table(evening, sort).rows]


def test_every_heading_sorts_the_most_first_and_blanks_last(evening: Evening) -> None:
    third = AthleteFactory.create(given_name="Ada", family_name="Zell", squad=evening.cast.squad)
    evening.assignment = evening.assign(evening.athlete, evening.cast.team_mate, third, in_days=1)
    lift(evening, evening.athlete, 50)
    lift(evening, evening.cast.team_mate, 70)
    tap_round(evening, evening.athlete, number=2)
    EffortLoadFactory.create(card=evening.card(third), effort=9, minutes=30)
    EffortLoadFactory.create(card=evening.card(evening.athlete), effort=5, minutes=60)
    moss, vane, zell = "Ingrid Moss", "Petra Vane", "Ada Zell"
    assert order(evening, "name") == [moss, vane, zell]
    assert order(evening, "done") == [moss, vane, zell]
    assert order(evening, "effort") == [zell, moss, vane]
    assert order(evening, "minutes") == [moss, zell, vane]
    assert order(evening, evening.squat.line_key) == [vane, moss, zell]


def test_unknown_heading_sorts_by_name(evening: Evening, coach: Client) -> None:
    assert (table(evening, "loudest").sort, coach.get(url(evening) + "?sort=loudest").status_code) == ("name", 200)


def test_latest_answer_on_effort_counts(evening: Evening) -> None:
    for effort in (8, 6):
        EffortLoadFactory.create(card=evening.card(), effort=effort)
    assert table(evening).rows[0].effort == 6


@pytest.mark.parametrize("role", [Role.OTHER_COACH, Role.ATHLETE, Role.TEAM_MATE, Role.HEAD_COACH])
def test_minors_loads_are_for_the_squads_staff_alone(evening: Evening, role: Role) -> None:
    evening.athlete.born_on = years_ago(14)
    evening.athlete.save()
    tap_round(evening, evening.athlete)
    for name in ("day_table", "day_csv", "day_xlsx"):
        response = evening.cast.client_of(role).get(url(evening, name))
        assert response.status_code in (403, 404)
        assert b"60" not in response.content


def test_fragment_is_the_table_alone(evening: Evening, coach: Client) -> None:
    text = coach.get(url(evening), headers={"HX-Request": "true"}).content.decode()
    assert ("<table" in text, "<html" in text) == (True, False)


@pytest.mark.parametrize("count", [1, 30])
def test_table_costs_as_much_for_thirty_as_for_one(evening: Evening, coach: Client, count: int) -> None:
    athletes = AthleteFactory.create_batch(count, squad=evening.cast.squad)
    evening.assignment = evening.assign(*athletes)
    with CaptureQueriesContext(connection) as queries:
        coach.get(url(evening))
    assert len(queries) == 10


def note(evening: Evening, text: str = "the knee gave way at home") -> SessionNote:
    return SessionNoteFactory.create(card=evening.card(), text=text)


def seen(evening: Evening, role: Role) -> list[bool]:
    client = evening.cast.client_of(role)
    pages = (reverse("desk:today"), url(evening, "assignment"))
    return ["the knee gave way" in client.get(page).content.decode() for page in pages]


@pytest.mark.parametrize(
    ("role", "reads"),
    [
        (Role.OWNER, True),
        (Role.COACH, True),
        (Role.CLINICIAN, True),
        (Role.ASSISTANT, False),
        (Role.HEAD_COACH, False),
        (Role.OTHER_COACH, False),
        (Role.TEAM_MATE, False),
        (Role.GUARDIAN, False),
    ],
)
def test_note_is_read_by_whom_notes_on_pain_are_read_by(evening: Evening, role: Role, reads: bool) -> None:
    note(evening)
    assert seen(evening, role) == [reads, reads]


def test_assignment_shows_effort_and_minutes_to_an_assistant_too(evening: Evening) -> None:
    EffortLoadFactory.create(card=evening.card(), effort=7, minutes=48)
    page = AssignmentPage.of(evening.cast.actor_of(Role.ASSISTANT), evening.assignment.pk)
    assert [(row.name, row.effort) for row in page.cards] == [("Ingrid Moss", "7 of 10, 48 min"), ("Petra Vane", "")]


def test_unread_notes_come_first(evening: Evening) -> None:
    read_note(actor=evening.coach, note=note(evening, "slept badly"))
    SessionNoteFactory.create(card=evening.card(evening.cast.team_mate), text="could do more")
    page = AssignmentPage.of(evening.coach, evening.assignment.pk)
    assert [row.note.text for row in page.notes] == ["could do more", "slept badly"]


def press_read(coach: Client, row: SessionNote, **data: Any) -> str:
    return coach.post(reverse("desk:note_read", kwargs={"pk": row.pk}), data).headers["Location"]


def test_note_that_was_read_leaves_today_and_stays_with_the_session(evening: Evening, coach: Client) -> None:
    row = note(evening)
    assert [line.text for line in TodayPage.of(evening.coach).notes] == [row.text]
    assert press_read(coach, row, **{"from": "today"}) == reverse("desk:today")
    assert TodayPage.of(evening.coach).notes == []
    assert [one.note.text for one in AssignmentPage.of(evening.coach, evening.assignment.pk).notes] == [row.text]


def test_note_read_twice_keeps_who_read_it_first(evening: Evening, coach: Client) -> None:
    row = note(evening)
    assert press_read(coach, row) == url(evening, "assignment")
    first = SessionNote.objects.get().read_at
    press_read(evening.cast.client_of(Role.OWNER), row)
    kept = SessionNote.objects.get()
    assert (kept.read_at, kept.read_by_id) == (first, evening.coach.user_id)


def test_note_that_was_taken_back_is_gone_from_the_pages(evening: Evening) -> None:
    note(evening)
    note(evening, "")
    assert seen(evening, Role.COACH) == [False, False]


def test_note_of_an_earlier_session_still_waits_on_today(evening: Evening) -> None:
    SessionNoteFactory.create(card__athlete=evening.athlete, card__assignment__squad=evening.cast.squad, text="tired")
    assert [line.text for line in TodayPage.of(evening.coach).notes] == ["tired"]


def test_headings_are_plain_links_and_say_what_they_sort(evening: Evening, coach: Client) -> None:
    text = coach.get(url(evening) + "?sort=done").content.decode()
    assert re.findall(r'aria-sort="(\w+)"><a href="([^"]+)"', text) == [("descending", "?sort=done")]
