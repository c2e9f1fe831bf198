""" "It was different": set by set, left and right; put right, taken back, sent twice with other numbers."""

from __future__ import annotations

from decimal import Decimal
from uuid import uuid4

import pytest

from coachhub.cards.models import SetEntry
from tests.gym.browser import Page
from tests.gym.conftest import Evening

WRITE = "Write this round"


def open_round(evening: Evening, number: int = 1) -> Page:
    return evening.open("round", evening.block("A"), number)


def name(evening: Evening, line: str, side: str, field: str) -> str:
    return f"{evening.line(line).key}-{side}-{field}"


def test_form_opens_with_the_plan(evening: Evening) -> None:
    form, _button = open_round(evening).form_with(WRITE)
    shown = {field: form.fields[name(evening, "Front squat", "both", field)] for field in ("load", "amount", "kind")}
    assert shown == {"load": ["60"], "amount": ["5"], "kind": ["done"]}


def test_round_untouched_is_written_as_planned(evening: Evening) -> None:
    page = evening.press(open_round(evening), WRITE)
    assert evening.done("Front squat") == [(1, "both", 60, 5)]
    assert "Round 2 done as planned" in page.buttons


def test_each_side_has_its_own_numbers(evening: Evening) -> None:
    page = evening.press(open_round(evening), WRITE, **{name(evening, "Split squat", "right", "amount"): "5"})
    assert evening.done("Split squat") == [(1, "left", None, 8), (1, "right", None, 5)]
    assert "8|5 of 8" in page.words


def test_skipped_set_is_a_fact_without_numbers(evening: Evening) -> None:
    page = evening.press(open_round(evening), WRITE, **{name(evening, "Chin-up", "both", "kind"): "skipped"})
    row = SetEntry.objects.get(line_key=evening.line("Chin-up").key)
    assert (row.kind, row.reps, "skipped" in page.words) == ("skipped", None, True)


def test_set_not_done_yet_writes_nothing(evening: Evening) -> None:
    evening.press(open_round(evening), WRITE, **{name(evening, "Chin-up", "both", "kind"): "void"})
    assert (evening.done("Chin-up"), evening.done("Front squat")) == ([], [(1, "both", 60, 5)])


def test_correction_changes_only_what_was_changed_and_the_old_stays(evening: Evening) -> None:
    evening.do("Round 1 done as planned")
    old = SetEntry.objects.get(line_key=evening.line("Front squat").key)
    evening.press(open_round(evening), WRITE, **{name(evening, "Front squat", "both", "amount"): "3"})
    new = SetEntry.objects.get(supersedes_uuid=old.uuid)
    assert (SetEntry.objects.count(), new.reps, new.load_value, new.seq > old.seq) == (5, 3, Decimal(60), True)
    assert evening.done("Front squat") == [(1, "both", 60, 3)]


def test_set_taken_back_is_open_again(evening: Evening) -> None:
    evening.do("Round 1 done as planned")
    page = evening.press(open_round(evening), WRITE, **{name(evening, "Front squat", "both", "kind"): "void"})
    assert evening.done("Front squat") == []
    page = evening.press(page, "Rest of round 1 done as planned")
    assert evening.done("Front squat") == [(1, "both", 60, 5)]
    assert "two versions" not in page.words


def test_reserve_and_note_go_with_the_set(evening: Evening) -> None:
    evening.describe(is_rir_taught=True)
    typed = {
        name(evening, "Front squat", "both", "rir"): "1",
        name(evening, "Front squat", "both", "note"): "Left heel came up",
    }
    evening.press(open_round(evening), WRITE, **typed)
    row = SetEntry.objects.get(line_key=evening.line("Front squat").key)
    assert (row.rir_half, row.note) == (1, "Left heel came up")


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("load", "-2.5", "0 or more."),
        ("load", "10000", "That cannot be; 500 at most."),
        ("load", "sixty", "Write a number, such as 62.5."),
        ("amount", "-1", "0 or more."),
        ("amount", "4.5", "Write a whole number."),
        ("amount", "five", "Write a whole number."),
        ("amount", "", "Write how many, or choose “Skipped”."),
    ],
)
def test_wrong_figure_is_said_beside_it_and_the_rest_is_kept(
    evening: Evening, field: str, typed: str, said: str
) -> None:
    wrong, other = name(evening, "Front squat", "both", field), name(evening, "Chin-up", "both", "amount")
    page = evening.press(open_round(evening), WRITE, **{wrong: typed, other: "2"})
    form, _button = page.form_with(WRITE)
    beside = page.html.split(f'id="id_{wrong}"')[1].split("</p>")[0]
    assert (page.status, said in beside, form.fields[wrong], form.fields[other]) == (422, True, [typed], ["2"])
    assert SetEntry.objects.count() == 0


def test_slipped_digit_is_asked_about_once(evening: Evening) -> None:
    load, sure = name(evening, "Front squat", "both", "load"), name(evening, "Front squat", "both", "sure")
    page = evening.press(open_round(evening), WRITE, **{load: "500"})
    form, _button = page.form_with(WRITE)
    said = "500 kg? Until now it was 60 kg. If it is right, say so below and send again." in page.words
    assert (page.status, said, form.fields[load], SetEntry.objects.count()) == (422, True, ["500"], 0)

    evening.press(page, WRITE, **{sure: "on"})
    assert evening.done("Front squat") == [(1, "both", 500, 5)]


def test_stale_page_does_not_undo_what_somebody_else_put_right(evening: Evening) -> None:
    evening.do("Round 1 done as planned")
    stale = open_round(evening)
    evening.press(open_round(evening), WRITE, **{name(evening, "Front squat", "both", "amount"): "3"})
    evening.press(stale, WRITE, **{name(evening, "Chin-up", "both", "amount"): "6"})
    assert (evening.done("Front squat"), evening.done("Chin-up")) == ([(1, "both", 60, 3)], [(1, "both", None, 6)])


def test_two_corrections_of_one_set_both_stay_and_are_shown(evening: Evening) -> None:
    evening.do("Round 1 done as planned")
    first, second = open_round(evening), open_round(evening)
    amount = name(evening, "Front squat", "both", "amount")
    for page, reps in ((first, "3"), (second, "4")):
        evening.press(page, WRITE, **{"uuid": str(uuid4()), amount: reps})
    (entry,) = evening.line("Front squat").cells[0].entries
    assert {entry.fact.reps, *(rival.reps for rival in entry.rivals)} == {3, 4}
    assert "Two versions were written." in open_round(evening).words


def test_same_sending_with_other_numbers_is_409_with_both_versions(evening: Evening) -> None:
    page, amount = open_round(evening), name(evening, "Front squat", "both", "amount")
    evening.press(page, WRITE)
    for _ in range(2):
        answer = evening.press(page, WRITE, **{amount: "4"})
    assert (answer.status, SetEntry.objects.filter(line_key=evening.line("Front squat").key).count()) == (409, 2)
    assert "Both are kept, and your coach sees both." in answer.words
    assert "Written first 60 kg × 5" in answer.words.replace("Written first60", "Written first 60")


def test_tap_sent_again_with_another_load_is_409(evening: Evening) -> None:
    page = evening.do(*(f"Round {n} done as planned" for n in (1, 2, 3, 4)))
    load = f"load_{evening.line('Goblet squat').key}"
    statuses = [evening.press(page, "Round 1 done as planned", **{load: kg}).status for kg in ("10", "10", "12")]
    assert statuses == [200, 200, 409]


def test_line_of_the_card_of_somebody_else_stays_out_of_reach(evening: Evening) -> None:
    theirs = evening.url("round", evening.block("A"), 1, athlete=evening.cast.team_mate)
    data = evening.browser().data_of(open_round(evening), WRITE)
    assert (evening.browser().send(theirs, data).status, SetEntry.objects.count()) == (404, 0)


@pytest.mark.parametrize("round_", [("A", 5), ("B", 4)])
def test_round_that_is_not_planned_is_404(evening: Evening, round_: tuple[str, int]) -> None:
    label, number = round_
    assert evening.open("round", evening.block(label), number).status == 404
