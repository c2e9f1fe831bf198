"""Sets stay with the exercise they were done as, whatever stands on their line since."""

from __future__ import annotations

from uuid import uuid4

from django.db import connection
from django.test.utils import CaptureQueriesContext

from coachhub.cards.actions import clear_pain, log_as_planned, report_pain
from coachhub.cards.models import Card, SetEntry
from coachhub.cards.queries import as_seen, load_sheets
from coachhub.cards.sheet import CellState, SheetGroup, SheetLine
from coachhub.people.models import Athlete, PainReport
from tests.cards.conftest import Evening, tap


def do_squats(evening: Evening, number: int, *, seq: int = 1, athlete: Athlete | None = None) -> None:
    sheet = evening.sheet(athlete)
    log_as_planned(
        actor=evening.coach,
        card=evening.card(athlete),
        sheet=sheet,
        places=[(sheet.blocks[0].key, number)],
        tap=tap(number, seq),
        line_key=evening.squat.line_key,
    )


def knee_hurts(evening: Evening, *, athlete: Athlete | None = None) -> PainReport:
    who = athlete or evening.athlete
    return report_pain(actor=evening.coach, athlete=who, uuid=uuid4(), region="knee", side="left", score=8)


def block(evening: Evening) -> SheetGroup:
    return evening.sheet().blocks[0]


def told(line: SheetLine) -> list[tuple[str, int, CellState]]:
    return [(line.name, cell.round, cell.state) for cell in line.cells]


def test_sets_before_a_swap_stand_under_their_own_exercise(evening: Evening) -> None:
    do_squats(evening, 1)
    knee_hurts(evening)
    (front,) = block(evening).earlier
    assert [(cell.round, cell.entries[0].fact.reps) for cell in front.cells if cell.entries] == [(1, 5)]
    assert front.name == "Front squat"
    assert told(evening.line(evening.squat)) == [
        ("Goblet squat", 1, CellState.DONE),
        ("Goblet squat", 2, CellState.BLANK),
        ("Goblet squat", 3, CellState.BLANK),
        ("Goblet squat", 4, CellState.BLANK),
    ]


def test_a_round_after_a_swap_is_written_as_the_new_exercise_once(evening: Evening) -> None:
    do_squats(evening, 1)
    knee_hurts(evening)
    do_squats(evening, 1, seq=2)
    do_squats(evening, 2, seq=3)
    rows = SetEntry.objects.order_by("pk").values_list("round", "exercise__name")
    assert list(rows) == [(1, "Front squat"), (2, "Goblet squat")]


def test_a_round_shows_what_it_was_done_as(evening: Evening) -> None:
    do_squats(evening, 1)
    knee_hurts(evening)
    names = [[line.name for line in block(evening).written_or_planned(number)] for number in (1, 2)]
    assert names == [["Front squat"], ["Goblet squat"]]


def test_a_phone_with_the_old_card_sees_sets_done_since_as_what_they_are(evening: Evening) -> None:
    knee_hurts(evening)
    do_squats(evening, 1)
    old = as_seen(evening.sheet(), 1).blocks[0]
    squat = next(line for line in old.lines if line.key == evening.squat.line_key)
    assert (squat.name, squat.cells[0].entries, squat.cells[0].state) == ("Front squat", (), CellState.DONE)
    assert [line.name for line in old.written_or_planned(1) if line.key == squat.key] == ["Goblet squat"]


def test_what_was_swapped_for_pain_comes_back_once_it_is_cleared(evening: Evening) -> None:
    do_squats(evening, 1)
    pain = knee_hurts(evening)
    clear_pain(actor=evening.coach, report=pain)
    assert told(evening.line(evening.squat))[:2] == [
        ("Front squat", 1, CellState.DONE),
        ("Front squat", 2, CellState.BLANK),
    ]
    assert block(evening).earlier == ()


def test_what_was_swapped_stays_once_the_other_exercise_is_begun(evening: Evening) -> None:
    do_squats(evening, 1)
    pain = knee_hurts(evening)
    do_squats(evening, 2, seq=2)
    clear_pain(actor=evening.coach, report=pain)
    assert evening.line(evening.squat).name == "Goblet squat"


def queries_of_sheets(evening: Evening) -> int:
    with CaptureQueriesContext(connection) as asked:
        load_sheets(Card.objects.filter(assignment=evening.assignment))
    return len(asked)


def test_sheets_ask_once_for_all_that_was_swapped(evening: Evening) -> None:
    do_squats(evening, 1)
    knee_hurts(evening)
    one = queries_of_sheets(evening)
    do_squats(evening, 1, athlete=evening.cast.team_mate)
    knee_hurts(evening, athlete=evening.cast.team_mate)
    assert (one, queries_of_sheets(evening)) == (6, 6)
