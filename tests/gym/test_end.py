"""A session's end on the phone: how hard, how long, a note, and what was done against the plan."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from coachhub.base.clock import now
from coachhub.cards.models import SetEntry
from coachhub.insight.actions import read_note
from coachhub.insight.models import EffortLoad, SessionNote
from tests.cast import Role
from tests.gym.browser import Page
from tests.gym.conftest import Evening
from tests.gym.test_hurts import no_writing

SEND, ANEW = "Send to the coach", "Write it anew"
ROUND = "Round 1 done as planned"


def say(evening: Evening, effort: str = "7", minutes: str = "55", button: str = SEND, **more: str) -> Page:
    return evening.press(evening.open("end"), button, effort=effort, minutes=minutes, **more)


def answers() -> list[tuple[int, int]]:
    return list(EffortLoad.objects.order_by("pk").values_list("effort", "minutes"))


def notes() -> list[str]:
    return list(SessionNote.objects.order_by("pk").values_list("text", flat=True))


def test_effort_minutes_and_note_are_written_and_shown(evening: Evening) -> None:
    page = say(evening, note="Left knee felt fine today")
    assert (answers(), notes()) == ([(7, 55)], ["Left knee felt fine today"])
    assert "Written: 7 of 10, 55 min. Your note: Left knee felt fine today" in page.words
    assert EffortLoad.objects.get().device_id == evening.cast.device.pk


def test_sent_twice_is_one_answer_and_one_note(evening: Evening) -> None:
    page = evening.open("end")
    for _ in range(2):
        evening.press(page, SEND, effort="7", minutes="55", note="tired")
    assert (answers(), notes()) == ([(7, 55)], ["tired"])


def test_other_answer_counts_and_the_one_before_is_kept(evening: Evening) -> None:
    say(evening, note="tired")
    page = say(evening, effort="8", button=ANEW, note="tired")
    assert (answers(), notes()) == ([(7, 55), (8, 55)], ["tired"])
    assert "Written: 8 of 10, 55 min." in page.words


def test_late_repeat_of_the_first_answer_does_not_stand_above_the_second(evening: Evening) -> None:
    first = evening.open("end")
    evening.press(first, SEND, effort="7", minutes="55")
    say(evening, effort="8", button=ANEW)
    page = evening.press(first, SEND, effort="7", minutes="55")
    assert answers() == [(7, 55), (8, 55)]
    assert "Written: 8 of 10, 55 min." in page.words


def test_empty_note_takes_back_what_was_written(evening: Evening) -> None:
    say(evening, note="tired")
    page = say(evening, button=ANEW, note="")
    assert (notes(), "Your note:" in page.words) == (["tired", ""], False)


def test_note_changed_after_it_was_read_is_unread_again(evening: Evening) -> None:
    say(evening, note="tired")
    read_note(actor=evening.coach, note=SessionNote.objects.get())
    assert "Read on" in evening.open("end").words
    say(evening, button=ANEW, note="tired, and the wrist hurts")
    assert list(SessionNote.objects.newest().values_list("text", "read_at")) == [("tired, and the wrist hurts", None)]


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ({"minutes": "55"}, "Choose a number."),
        ({"effort": "11", "minutes": "55"}, "11 is not one of the available choices."),
        ({"effort": "7", "minutes": ""}, "Write how many minutes."),
        ({"effort": "7", "minutes": "0"}, "At least one minute."),
        ({"effort": "7", "minutes": "601"}, "600 minutes at most."),
        ({"effort": "7", "minutes": "an hour"}, "Write a whole number."),
        ({"effort": "7", "minutes": "55", "note": "x" * 501}, "at most 500 characters"),
    ],
)
def test_bad_answer_is_said_beside_its_field_and_the_rest_kept(
    evening: Evening, typed: dict[str, str], words: str
) -> None:
    page = evening.press(evening.open("end"), SEND, **{"note": "tired", **typed})
    assert (page.status, words in page.words, answers(), notes()) == (422, True, [], [])
    assert typed.get("note", "tired") in page.html


def logged(evening: Evening, *minutes_ago: int) -> None:
    """Rounds 1, 2 … of block A, written so many minutes ago."""
    for number, ago in enumerate(minutes_ago, 1):
        evening.do(f"Round {number} done as planned")
        fresh = SetEntry.objects.filter(round=number)
        fresh.update(client_at=now() - timedelta(minutes=ago))


def minutes_field(evening: Evening) -> list[str]:
    form, _button = evening.open("end").form_with(SEND)
    return form.fields["minutes"]


@pytest.mark.parametrize(
    ("ago", "minutes"),
    [((42, 20, 0), ["42"]), ((6, 3, 0), [""])],
    ids=["from first to last", "typed in afterwards"],
)
def test_minutes_are_those_from_first_to_last_set(evening: Evening, ago: tuple[int, ...], minutes: list[str]) -> None:
    logged(evening, *ago)
    stamps = SetEntry.objects.order_by("client_at")
    days = {stamp.date() for stamp in (stamps[0].client_at, stamps[len(stamps) - 1].client_at)}
    assert minutes_field(evening) == (minutes if len(days) == 1 else [""])


def test_set_put_right_days_later_does_not_stretch_the_minutes(evening: Evening) -> None:
    logged(evening, 0)
    first = SetEntry.objects.order_by("pk")[0]
    SetEntry.objects.filter(pk=first.pk).update(client_at=now() - timedelta(days=2))
    assert minutes_field(evening) == [""]


def test_summary_holds_what_was_planned_and_what_was_written(evening: Evening) -> None:
    evening.do(ROUND)
    page = evening.open("end")
    done = "A1 Front squat planned 4 × 60 kg × 5 done 60 kg × 5"
    assert ("3 of 24 planned sets done" in page.words, done in page.words) == (True, True)
    assert "B1 Romanian deadlift planned 3 × 60 kg × 5 nothing written" in page.words


def test_best_set_is_named_where_sets_differ(evening: Evening) -> None:
    evening.do(ROUND)
    page = evening.open("round", evening.block("A"), 2)
    key = evening.lines["Front squat"].line_key
    evening.press(page, page.buttons[-1], **{f"{key}-both-load": "62.5", f"{key}-both-amount": "4"})
    assert "done 60 kg × 5, 62.5 kg × 4 of 5; best set 62.5 kg × 4" in evening.open("end").words


def test_card_leads_to_its_end_before_all_is_written(evening: Evening) -> None:
    assert "I am done" not in evening.open().words
    evening.do(ROUND)
    assert ("I am done" in evening.open().words, evening.url("end") in evening.open().html) == (True, True)


def test_list_of_cards_asks_until_somebody_has_answered(evening: Evening) -> None:
    asks = "Done? Say how hard it was"
    home = evening.browser().open("/g/")
    evening.do(ROUND)
    begun = evening.browser().open("/g/")
    say(evening)
    assert [asks in page.words for page in (home, begun, evening.browser().open("/g/"))] == [False, True, False]


def test_assistant_writes_effort_and_neither_reads_nor_writes_the_note(evening: Evening) -> None:
    say(evening, note="the knee gave way at home")
    page = evening.open("end", role=Role.ASSISTANT)
    form, _button = page.form_with(ANEW)
    assert ("the knee gave way" in page.html, 'name="note"' in page.html) == (False, False)
    data = evening.browser().data_of(page, ANEW, effort="5", minutes="50", note="overwritten")
    evening.browser(Role.ASSISTANT).send(form.action, data)
    assert (answers()[-1], notes()) == ((5, 50), ["the knee gave way at home"])


def test_coach_reads_the_note_and_answers_for_the_athlete(evening: Evening) -> None:
    say(evening, note="the knee gave way at home")
    page = evening.open("end", role=Role.COACH)
    assert ("For Ingrid Moss" in page.words, "the knee gave way at home" in page.words) == (True, True)


def test_answer_that_could_not_be_stored_says_so_and_is_kept(evening: Evening) -> None:
    page = evening.open("end")
    with connection.execute_wrapper(no_writing("insight_effortload")):
        sent = evening.press(page, SEND, effort="7", minutes="55", note="tired")
    assert (sent.status, "NOT SENT." in sent.words, "tired" in sent.html) == (503, True, True)


def test_odd_key_is_refused_in_plain_words(evening: Evening) -> None:
    sent = evening.press(evening.open("end"), SEND, effort="7", minutes="55", uuid="no uuid")
    assert (sent.status, answers()) == (422, [])


@pytest.mark.parametrize("rounds", [1, 4])
def test_end_costs_as_much_after_one_round_as_after_four(evening: Evening, rounds: int) -> None:
    for number in range(1, rounds + 1):
        evening.do(f"Round {number} done as planned")
    browser, address = evening.browser(), evening.url("end")
    with CaptureQueriesContext(connection) as queries:
        browser.open(address)
    assert len(queries) == 10


def test_red_flag_stands_above_the_end(evening: Evening) -> None:
    evening.press(evening.open("hurts"), "Chest pain")
    assert "Stop. Tell your coach now." in evening.open("end").words
