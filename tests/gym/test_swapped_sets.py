"""Sets done before a swap, on the phone, at the session's end, in the coach's table and on paper."""

from __future__ import annotations

from uuid import uuid4

import pytest

from coachhub.base.clock import now
from coachhub.cards.actions import report_pain
from coachhub.insight.summary import summary_of
from coachhub.paper.pages import paper_card
from tests.gym.conftest import Evening


@pytest.fixture
def swapped(evening: Evening) -> Evening:
    """Round 1 of block A is done when the low leg of the squat is reported: hip thrusts stand in from round 2."""
    evening.do("Round 1 done as planned")
    athlete = evening.cast.athlete
    report_pain(actor=evening.coach, athlete=athlete, uuid=uuid4(), region="knee", side="both", score=8)
    return evening


def test_card_names_the_exercise_that_was_done(swapped: Evening) -> None:
    words = swapped.open().words
    assert "A1 Front squat 60 kg × 5" in words
    assert "Hip thrust instead of Front squat" in words


def test_round_of_before_is_put_right_as_what_it_was(swapped: Evening) -> None:
    page = swapped.open("round", swapped.block("A"), 1)
    key = swapped.lines["Front squat"].line_key
    swapped.press(page, "Write this round", **{f"{key}-both-amount": "4"})
    rows = swapped.facts.filter(line_key=key).values_list("exercise__name", "reps")
    assert list(rows) == [("Front squat", 5), ("Front squat", 4)]


def test_end_tells_planned_and_done_of_either_exercise(swapped: Evening) -> None:
    swapped.do("Round 2 done as planned")
    told = [(line.name, line.done, line.asked, line.done_text) for line in summary_of(swapped.sheet())]
    assert told[:2] == [
        ("Front squat", 1, 1, "60 kg × 5"),
        ("Hip thrust", 1, 3, told[1][3]),
    ]


def test_paper_prints_what_was_done_under_its_name(swapped: Evening) -> None:
    card = paper_card(swapped.sheet(), address="https://cards.club.example/g/1", as_of=now(), with_health=True)
    front, thrust = card.blocks[0].lines[:2]
    assert (front.name, [box.state for box in front.strips[0]][:2]) == ("Front squat", ["done", "none"])
    assert (thrust.name, thrust.strips[0][0].state) == ("Hip thrust", "none")
