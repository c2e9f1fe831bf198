"""Tables to take along: what is in them, that none holds a formula, and that each is on record."""

from __future__ import annotations

import csv
import io
import logging
from collections.abc import Iterator
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from openpyxl import load_workbook

from coachhub.base.clock import today
from coachhub.cards.actions import mark_set
from coachhub.cards.models import SetQuality
from tests.cards.conftest import Evening
from tests.cast import Role
from tests.desk.evening import tap_round
from tests.factories import EffortLoadFactory, SessionNoteFactory, SetEntryFactory, days_ago


@pytest.fixture
def coach(evening: Evening) -> Client:
    return evening.cast.client_of(Role.COACH)


def address(evening: Evening, name: str) -> str:
    pk = {"day": evening.assignment.pk, "squad_sets": evening.cast.squad.pk, "history": evening.athlete.pk}
    kind = name.rsplit("_", 1)[0]
    return reverse(f"desk:{name}", kwargs={"pk": pk[kind]})


def content(response: Any) -> bytes:
    return b"".join(response.streaming_content) if response.streaming else response.content


def rows_of(response: Any) -> list[list[str]]:
    return list(csv.reader(io.StringIO(content(response).decode("utf-8-sig"))))


def cells_of(response: Any) -> list[list[Any]]:
    sheet = load_workbook(io.BytesIO(content(response))).worksheets[0]
    return [[cell.value for cell in row] for row in sheet.iter_rows()]


FILES = ["day_csv", "day_xlsx", "squad_sets_csv", "squad_sets_xlsx", "history_csv", "history_xlsx"]


def test_day_has_a_line_for_each_athlete_and_exercise(evening: Evening, coach: Client) -> None:
    tap_round(evening, evening.athlete)
    EffortLoadFactory.create(card=evening.card(), effort=7, minutes=48)
    head, first, *more = rows_of(coach.get(address(evening, "day_csv")))
    assert (len(head), len(more)) == (10, 5)
    assert first == [
        "Ingrid Moss", "A1", "Front squat", "4 × 60 kg × 5", "4", "1", "60 kg × 5", "60 kg × 5", "7", "48",
    ]  # fmt: skip


def test_history_has_a_line_for_each_set_that_counts(evening: Evening, coach: Client) -> None:
    squat, *_rest = tap_round(evening, evening.athlete)
    mark_set(actor=evening.coach, entry=squat, quality=SetQuality.CLEAN)
    SetEntryFactory.create(
        line=squat.line, supersedes_uuid=squat.uuid, round=1, load_value="62.50", load_unit="kg", load_kg="62.5000"
    )
    _head, *lines = rows_of(coach.get(address(evening, "history_csv")))
    day = today().isoformat()
    assert lines == [
        [day, "Ingrid Moss", "Squat and hinge", "Mill Lane gym", "A1", "Front squat", "1", "", "done", "6", "", "", "",
         "62.5", "kg", "62.5", "total with the bar", "", ""],
        [day, "Ingrid Moss", "Squat and hinge", "Mill Lane gym", "A2", "Split squat", "1", "left", "done", "8",
         "", "", "", "", "", "", "", "", ""],
        [day, "Ingrid Moss", "Squat and hinge", "Mill Lane gym", "A2", "Split squat", "1", "right", "done", "8",
         "", "", "", "", "", "", "", "", ""],
    ]  # fmt: skip


def test_figures_are_figures_in_a_spreadsheet(evening: Evening, coach: Client) -> None:
    tap_round(evening, evening.athlete)
    head, first, *_more = cells_of(coach.get(address(evening, "history_xlsx")))
    found = dict(zip(head, first, strict=True))
    assert [found[name] for name in ("Round", "Repetitions", "Load", "Load in kg", "Unit")] == [1, 5, 60, 60, "kg"]


def test_plate_numbers_are_never_given_as_kilograms(evening: Evening, coach: Client) -> None:
    line = evening.card().revisions.get().lines.get(label="A1")
    SetEntryFactory.create(line=line, load_value=7, load_unit="pl", load_kg=7)
    head, first = rows_of(coach.get(address(evening, "history_csv")))
    found = dict(zip(head, first, strict=True))
    assert (found["Load"], found["Unit"], found["Load in kg"]) == ("7", "pl", "")


def test_squads_sets_are_those_of_the_days_asked_for(evening: Evening, coach: Client) -> None:
    line = evening.card().revisions.get().lines.get(label="A1")
    for number, days in enumerate((0, 10, 20, 40), 1):
        SetEntryFactory.create(line=line, on_date=days_ago(days), reps=days + 1, round=number)
    span = {"first": days_ago(20).isoformat(), "last": days_ago(10).isoformat()}
    _head, *lines = rows_of(coach.get(address(evening, "squad_sets_csv"), span))
    assert [line[9] for line in lines] == ["11", "21"]


def test_other_squads_sets_are_not_among_them(evening: Evening, coach: Client) -> None:
    SetEntryFactory.create(line__revision__card__athlete=evening.athlete)
    SetEntryFactory.create(line__revision__card__assignment__squad=evening.cast.squad)
    tap_round(evening, evening.athlete)
    _head, *lines = rows_of(coach.get(address(evening, "squad_sets_csv")))
    assert {(line[1], line[2]) for line in lines} == {("Ingrid Moss", "Squat and hinge")}


@pytest.mark.parametrize(
    ("span", "field"),
    [
        ({"first": "2026-03-02", "last": "2026-03-01"}, "last"),
        ({"first": "tomorrow", "last": "2026-03-01"}, "first"),
        ({"first": "2026-03-01"}, "last"),
    ],
)
@pytest.mark.parametrize("name", ["squad_sets", "squad_sets_csv", "squad_sets_xlsx"])
def test_bad_days_are_said_beside_their_field(
    coach: Client, evening: Evening, name: str, span: Any, field: str
) -> None:
    pk = {"pk": evening.cast.squad.pk}
    response = coach.get(reverse(f"desk:{name}", kwargs=pk), span)
    assert (response.status_code, list(response.context["form"].errors)) == (422, [field])
    assert "2026-03-01" in response.content.decode()


def test_form_asks_for_the_last_four_weeks(evening: Evening, coach: Client) -> None:
    text = coach.get(reverse("desk:squad_sets", kwargs={"pk": evening.cast.squad.pk})).content.decode()
    assert [f'value="{day.isoformat()}"' in text for day in (days_ago(28), today())] == [True, True]


@pytest.mark.parametrize("name", FILES)
def test_no_cell_begins_a_formula(evening: Evening, coach: Client, name: str) -> None:
    evening.athlete.given_name = '=HYPERLINK("http://x")'
    evening.athlete.save()
    tap_round(evening, evening.athlete)
    response = coach.get(address(evening, name))
    cells = rows_of(response) if name.endswith("csv") else cells_of(response)
    names = {str(cell) for row in cells for cell in row if "HYPERLINK" in str(cell)}
    assert names == {'\'=HYPERLINK("http://x") Moss'}


@pytest.mark.parametrize("name", FILES)
def test_notes_do_not_leave_the_program(evening: Evening, coach: Client, name: str) -> None:
    tap_round(evening, evening.athlete)
    SessionNoteFactory.create(card=evening.card(), text="knee gave way")
    line = evening.card().revisions.get().lines.get(label="B1")
    SetEntryFactory.create(line=line, note="knee gave way")
    response = coach.get(address(evening, name))
    cells = rows_of(response) if name.endswith("csv") else cells_of(response)
    assert (len(cells) > 3, [c for row in cells for c in row if "gave way" in str(c)]) == (True, [])


@pytest.mark.parametrize("name", FILES)
def test_each_file_is_on_record_by_ids_alone(
    evening: Evening, coach: Client, name: str, caplog: pytest.LogCaptureFixture
) -> None:
    with caplog.at_level(logging.INFO, "coachhub.audit"):
        content(coach.get(address(evening, name)))
    (said,) = [record.getMessage() for record in caplog.records if record.name == "coachhub.audit"]
    assert said.startswith(f"coach user {evening.coach.user_id}: exported ")
    assert "Moss" not in said


@pytest.mark.parametrize("name", FILES)
def test_file_has_a_name_and_stays_in_no_cache(evening: Evening, coach: Client, name: str) -> None:
    response = coach.get(address(evening, name))
    ending = f'.{name.rsplit("_", 1)[1]}"'
    assert response.headers["Content-Disposition"].startswith("attachment; filename=")
    assert response.headers["Content-Disposition"].endswith(ending)
    assert "no-store" in response.headers["Cache-Control"]
    response.close()


def cards_with_sets(evening: Evening, count: int) -> Iterator[None]:
    line = evening.card().revisions.get().lines.get(label="A1")
    for days in range(count):
        SetEntryFactory.create(line=line, on_date=days_ago(days))
        yield


@pytest.mark.parametrize("count", [1, 30])
def test_file_costs_as_much_for_thirty_days_as_for_one(evening: Evening, coach: Client, count: int) -> None:
    assert len(list(cards_with_sets(evening, count))) == count
    with CaptureQueriesContext(connection) as queries:
        content(coach.get(address(evening, "history_csv")))
    assert len([query for query in queries if "SAVEPOINT" not in query["sql"]]) <= 10
