"""Pain and red flags from the phone: each sentence of the safety rules that a phone can reach."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any
from uuid import uuid4

import pytest
from django.db import DatabaseError, connection

from coachhub.base.clock import today
from coachhub.cards.actions import clear_pain, clear_red_flag, restrict_athlete
from coachhub.cards.models import SetEntry
from coachhub.people.models import PainReport, RedFlag
from tests.cast import Role
from tests.factories import years_ago
from tests.gym.browser import Page
from tests.gym.conftest import Evening

TELL = "Tell the coach"


def report(evening: Evening, score: int, region: str = "knee", kind: str = "hurts", **more: str) -> Page:
    typed = {"score": str(score), "region": region, "side": "both", "kind": kind}
    return evening.press(evening.open("hurts"), TELL, **typed | more)


def names_left_out(evening: Evening) -> list[str]:
    return [line.written_name for group in evening.sheet().groups for line in group.dropped]


def test_pain_from_six_takes_lines_off_the_card_of_an_adult(evening: Evening) -> None:
    page = report(evening, 6)
    assert names_left_out(evening) == ["Split squat"]
    assert evening.line("Front squat").name == "Hip thrust"
    assert "Stop what hurts. Tell your coach now." in page.words
    assert "Split squat" in page.words


def test_pain_of_five_leaves_an_adults_lines_and_holds_loads(evening: Evening) -> None:
    page = report(evening, 5)
    assert names_left_out(evening) == []
    assert "does not get heavier until your coach has cleared it" in page.words


@pytest.mark.parametrize(("score", "left_out"), [(2, []), (3, ["Split squat"])])
def test_minors_lines_come_off_from_three(evening: Evening, score: int, left_out: list[str]) -> None:
    evening.describe(born_on=years_ago(14))
    report(evening, score)
    assert names_left_out(evening) == left_out


def test_muscle_soreness_changes_nothing(evening: Evening) -> None:
    page = report(evening, 8, kind="sore")
    row = PainReport.objects.get()
    assert (row.is_sore_only, names_left_out(evening)) == (True, [])
    assert "Written: muscle soreness." in page.words


def test_warm_up_lines_come_off_like_the_rest(evening: Evening) -> None:
    report(evening, 7, region="hip")
    assert "Knee hug" in names_left_out(evening)


def test_left_out_line_says_why_on_the_card(evening: Evening) -> None:
    report(evening, 6)
    page = evening.open()
    assert "Off the card: pain of 6 at the knee. The coach decides when it comes back." in page.words
    assert "because of what hurts" in page.words


def test_pain_sent_twice_is_one_report(evening: Evening) -> None:
    page = evening.open("hurts")
    typed = {"score": "4", "region": "knee", "side": "left", "kind": "hurts", "note": "since the jump"}
    for _ in range(2):
        evening.press(page, TELL, **typed)
    assert list(PainReport.objects.values_list("score", "side", "note")) == [(4, "left", "since the jump")]


def test_worse_pain_under_the_same_sending_is_not_lost(evening: Evening) -> None:
    page = evening.open("hurts")
    for score in ("4", "8"):
        evening.press(page, TELL, score=score, region="knee", side="both", kind="hurts")
    assert sorted(PainReport.objects.values_list("score", flat=True)) == [4, 8]
    assert names_left_out(evening) == ["Split squat"]


def test_pain_half_told_is_said_beside_the_field_and_the_rest_kept(evening: Evening) -> None:
    page = evening.press(evening.open("hurts"), TELL, score="4", side="left", note="since the jump")
    form, _button = page.form_with(TELL)
    assert (page.status, form.fields["score"], form.fields["note"]) == (422, ["4"], ["since the jump"])
    assert "Choose where." in page.words
    assert PainReport.objects.count() == 0


@pytest.mark.parametrize(
    ("words", "kind"),
    [
        ("A knock to the head", "head_knock"),
        ("Chest pain", "chest_pain"),
        ("Fainted or nearly", "faint"),
        ("Numbness or weakness", "numbness"),
        ("A joint gave way", "giving_way"),
        ("A pop was felt or heard", "pop"),
    ],
)
def test_red_flag_is_one_tap_and_stops_the_card(evening: Evening, words: str, kind: str) -> None:
    page = evening.press(evening.open("hurts"), words)
    card = evening.open()
    assert (RedFlag.objects.get().kind, "Stop. Tell your coach now." in page.words) == (kind, True)
    assert ([b for b in card.buttons if "done" in b], "Stop. Tell your coach now." in card.words) == ([], True)


def test_coming_cards_wait_too_until_somebody_has_cleared_it(evening: Evening) -> None:
    evening.press(evening.open("hurts"), "Chest pain")
    evening.assignment = evening.assign(evening.cast.athlete, day=7)
    early = f"{evening.url()}?early=1"
    waiting = evening.browser().open(early)
    clear_red_flag(actor=evening.coach, flag=RedFlag.objects.get(), cleared_by_name="Dr Alder", cleared_on=today())
    cleared = evening.browser().open(early)
    assert ["Round 1 done as planned" in page.buttons for page in (waiting, cleared)] == [False, True]


def test_set_done_before_the_stop_is_still_stored_and_flagged(evening: Evening) -> None:
    evening.press(evening.open("hurts"), "Chest pain")
    evening.press(evening.open("round", evening.block("A"), 1), "Write this round")
    assert set(SetEntry.objects.values_list("is_flagged", flat=True)) == {True}
    assert evening.done("Front squat") == [(1, "both", 60, 5)]


def test_restriction_reaches_a_begun_card_loudly(evening: Evening) -> None:
    evening.do("Round 1 done as planned")
    restrict_athlete(
        actor=evening.coach,
        athlete=evening.cast.athlete,
        kind="region",
        region="knee",
        on_word_of="Dr Alder",
        starts_on=today(),
    )
    page = evening.open()
    assert "because what you may do now has changed" in page.words
    assert "A1 Hip thrust instead of Front squat" in page.words
    assert "Elbows up" not in page.words
    assert "A2 Split squat is off" in page.words


def test_assistant_may_report_for_an_athlete(evening: Evening) -> None:
    browser = evening.browser(Role.ASSISTANT)
    page = browser.open(evening.url("hurts"))
    browser.press(page, TELL, score="7", region="knee", side="left", kind="hurts")
    assert PainReport.objects.get().reported_by_id == evening.cast.staff[Role.ASSISTANT].user_id


def test_nobody_reports_for_a_team_mate(evening: Evening) -> None:
    data = evening.browser().data_of(evening.open("hurts"), "Chest pain")
    stop = evening.url("red_flag", athlete=evening.cast.team_mate)
    assert (evening.browser().send(stop, data).status, RedFlag.objects.count()) == (404, 0)


def no_writing(table: str) -> Callable[..., Any]:
    def refuse(execute: Any, sql: str, params: Any, many: bool, context: Any) -> Any:
        if sql.startswith("INSERT") and table in sql:
            raise DatabaseError("disk full")
        return execute(sql, params, many, context)

    return refuse


def test_pain_that_could_not_be_stored_is_said_loudly_and_kept(evening: Evening) -> None:
    page = evening.open("hurts")
    with connection.execute_wrapper(no_writing("people_painreport")):
        answer = evening.press(page, TELL, score="7", region="knee", side="left", kind="hurts", note="pop")
    assert (answer.status, "NOT SENT. Tell your coach now." in answer.words) == (503, True)
    assert answer.form_with(TELL)[0].fields["note"] == ["pop"]


def test_red_flag_that_could_not_be_stored_is_said_loudly(evening: Evening) -> None:
    page = evening.open("hurts")
    with connection.execute_wrapper(no_writing("people_redflag")):
        answer = evening.press(page, "Chest pain")
    assert (answer.status, "NOT SENT. Tell your coach now." in answer.words) == (503, True)


def test_damaged_red_flag_is_not_taken_for_sent(evening: Evening) -> None:
    answer = evening.browser().send(evening.url("red_flag"), {"uuid": [str(uuid4())], "kind": ["sneeze"]})
    assert (answer.status, "NOT SENT. Tell your coach now." in answer.words) == (422, True)


def test_set_done_before_it_hurt_stays_readable_and_can_be_put_right(evening: Evening) -> None:
    evening.do("Round 1 done as planned")
    report(evening, 6)
    right = f"{evening.line('Split squat').key}-right-amount"
    page = evening.press(evening.open("round", evening.block("A"), 1), "Write this round", **{right: "5"})

    assert (names_left_out(evening), "8|5 of 8" in page.words) == (["Split squat"], True)
    assert evening.done("Split squat") == [(1, "left", None, 8), (1, "right", None, 5)]


def test_begun_line_comes_back_once_the_pain_is_cleared(evening: Evening) -> None:
    evening.do("Round 1 done as planned")
    report(evening, 6)
    clear_pain(actor=evening.coach, report=PainReport.objects.get())
    page = evening.open()

    assert (names_left_out(evening), 'class="alert change"' in page.html) == ([], False)
    assert "after what hurt. This is back on your card: A1 Front squat instead of Hip thrust:" in page.words
    assert "Split squat is on" in page.words
