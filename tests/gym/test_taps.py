"""The card by taps, on plain forms."""

from __future__ import annotations

import pytest

from coachhub.base.clock import today
from coachhub.cards.actions import renew_card
from coachhub.cards.models import SetEntry
from tests.cast import Role
from tests.gym.conftest import Evening

ROUNDS = [f"Round {n} done as planned" for n in (1, 2, 3, 4, 1, 2, 3)]


def test_four_and_three_rounds_with_24_sets_are_seven_taps(evening: Evening) -> None:
    page = evening.do(*ROUNDS)
    sheet = evening.sheet()
    planned = sum(line.sets for group in sheet.blocks for line in group.lines)
    assert (len(ROUNDS), planned, [group.is_done for group in sheet.blocks]) == (7, 24, [True, True])
    assert "All that was planned is written." in page.words


def test_one_tap_writes_a_whole_warm_up(evening: Evening) -> None:
    page = evening.do("Warm-up done")
    assert evening.done("Arm circles") == [(1, "both", None, 10)]
    assert evening.done("Knee hug") == [(1, "left", None, 6), (1, "right", None, 6)]
    assert "Warm-up done" not in page.buttons


def test_single_tick_writes_one_line_and_the_rest_stays_to_do(evening: Evening) -> None:
    page = evening.do("A1 Front squat done as planned")
    assert (evening.done("Front squat"), evening.done("Chin-up")) == ([(1, "both", 60, 5)], [])
    evening.press(page, "Rest of round 1 done as planned")
    assert evening.done("Front squat") == [(1, "both", 60, 5)]
    assert evening.done("Split squat") == [(1, "left", None, 8), (1, "right", None, 8)]


def test_several_directions_are_one_entry_a_round(evening: Evening) -> None:
    evening.do(*ROUNDS[:5])
    assert evening.done("Lunge round the clock") == [(1, "both", None, 2)]
    assert "forward, to the side, backward" in evening.open().words


def test_number_that_was_taken_goes_with_the_same_tap(evening: Evening) -> None:
    page = evening.do(*ROUNDS[:4])
    key = evening.line("Goblet squat").key
    page = evening.press(page, "Round 1 done as planned", **{f"load_{key}": "12,5"})
    assert evening.done("Goblet squat")[0][2] == 12.5
    assert page.form_with("Round 2 done as planned")[0].fields[f"load_{key}"] == ["12.5"]


def test_loadable_numbers_stand_beside_the_field(evening: Evening) -> None:
    page = evening.do(*ROUNDS[:4])
    assert '<option value="8"></option><option value="10"></option>' in page.html


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("-5", "0 or more."),
        ("10000", "That cannot be; 500 at most."),
        ("heavy", "Write a number, such as 62.5."),
        ("12.125", "At most two decimals."),
    ],
)
def test_load_that_cannot_be_is_said_beside_it_and_kept(evening: Evening, typed: str, said: str) -> None:
    page = evening.do(*ROUNDS[:4])
    name = f"load_{evening.line('Goblet squat').key}"
    page = evening.press(page, "Round 1 done as planned", **{name: typed})
    field = page.html.split(f'id="{name}"')[1].split("</p>")[0]
    assert (page.status, said in field, f'value="{typed}"' in field) == (422, True, True)
    assert evening.done("Romanian deadlift") == []


def test_weight_that_was_to_be_found_is_asked_for(evening: Evening) -> None:
    page = evening.do(*ROUNDS[:4])
    name = f"load_{evening.line('Goblet squat').key}"
    page = evening.press(page, "Round 1 done as planned", **{name: ""})
    asked = "How much was it? 0 if you took no weight." in page.words
    assert (page.status, asked, evening.done("Romanian deadlift")) == (422, True, [])

    evening.press(page, "Round 1 done as planned", **{name: "0"})
    assert evening.done("Goblet squat") == [(1, "both", 0, 8)]


def test_coming_card_is_written_only_by_who_says_that_it_is_done_today(evening: Evening) -> None:
    evening.assignment = evening.assign(evening.cast.athlete, day=7)
    coming = evening.open()
    page = evening.browser().open(f"{evening.url()}?early=1")
    after = evening.press(page, "Round 1 done as planned")

    assert (coming.buttons, "Round 2 done as planned" in after.buttons) == ([], True)
    assert set(SetEntry.objects.values_list("on_date", flat=True)) == {today()}


def test_reserve_is_asked_on_the_last_round_of_who_was_taught(evening: Evening) -> None:
    evening.describe(is_rir_taught=True)
    asked = [page.words.count("Reps left in reserve") for page in [evening.do(*ROUNDS[:6]), evening.do()]]
    key = evening.line("Romanian deadlift").key
    assert asked == [2, 2]
    evening.press(evening.open(), "Round 3 done as planned", **{f"rir_{key}": "3"})
    halves = evening.facts.filter(line_key=key).values_list("round", "rir_half")
    assert list(halves) == [(1, None), (2, None), (3, 3)]


def test_reserve_is_never_asked_of_who_was_not_taught(evening: Evening) -> None:
    pages = [evening.open(), *(evening.do(words) for words in ROUNDS)]
    assert [page.words.count("in reserve") for page in pages] == [0] * 8


def test_same_sending_twice_changes_nothing(evening: Evening) -> None:
    page = evening.open()
    for _ in range(2):
        after = evening.press(page, "Round 1 done as planned")
    assert (SetEntry.objects.count(), "Round 2 done as planned" in after.buttons) == (4, True)


def test_old_page_with_a_new_sending_writes_nothing_twice(evening: Evening) -> None:
    page, other = evening.open(), evening.open()
    evening.press(page, "Round 1 done as planned")
    evening.press(other, "Round 1 done as planned")
    assert SetEntry.objects.count() == 4


def test_what_was_read_on_the_page_is_what_is_written(evening: Evening) -> None:
    page = evening.open()
    line = evening.lines["Front squat"]
    line.load = 70
    line.save()
    renew_card(actor=evening.coach, card=evening.card())
    evening.press(page, "Round 1 done as planned")
    assert evening.done("Front squat") == [(1, "both", 60, 5)]


def test_part_that_left_the_card_is_said_and_nothing_is_written(evening: Evening) -> None:
    data = evening.browser().data_of(evening.open(), "Round 1 done as planned", group="g0")
    page = evening.browser().send(evening.url("log"), data)
    assert (page.status, SetEntry.objects.count()) == (422, 0)
    assert "This part is no longer on the card. Nothing was written." in page.words


def test_block_may_be_done_before_its_turn(evening: Evening) -> None:
    page = evening.browser().open(f"{evening.url()}?at={evening.block('B')}")
    page = evening.press(page, "Round 1 done as planned")
    assert (len(evening.done("Romanian deadlift")), evening.done("Front squat")) == (1, [])
    assert "Do block A now" in page.words
    page = evening.press(evening.press(page, "Round 2 done as planned"), "Round 3 done as planned")
    assert "Do block A now" not in page.words


def test_coach_writes_for_the_athlete_on_the_same_page(evening: Evening) -> None:
    browser = evening.browser(Role.COACH)
    page = browser.open(evening.url())
    assert "For Ingrid Moss" in page.words
    browser.press(page, "Round 1 done as planned")
    authors = set(SetEntry.objects.values_list("author", "athlete"))
    assert authors == {(evening.cast.staff[Role.COACH].user_id, evening.cast.athlete.pk)}


def test_athlete_reaches_no_card_of_a_team_mate(evening: Evening) -> None:
    data = evening.browser().data_of(evening.open(), "Round 1 done as planned")
    other = evening.url("log", athlete=evening.cast.team_mate)
    assert (evening.browser().send(other, data).status, SetEntry.objects.count()) == (404, 0)


def test_weight_on_a_body_exercise_may_be_written_and_need_not(evening: Evening) -> None:
    page, name = evening.open(), f"load_{evening.line('Chin-up').key}"
    assert page.form_with("Round 1 done as planned")[0].fields[name] == [""]
    page = evening.press(page, "Round 1 done as planned")
    evening.press(page, "Round 2 done as planned", **{name: "5"})
    assert evening.done("Chin-up") == [(1, "both", None, 4), (2, "both", 5, 4)]
