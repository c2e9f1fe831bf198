"""What one card says on paper."""

from __future__ import annotations

from io import BytesIO
from uuid import uuid4

import pytest
from pypdf import PdfReader

from coachhub.cards.actions import report_red_flag
from coachhub.cards.models import Card
from coachhub.cards.queries import load_sheets
from coachhub.people.models import RedFlagKind
from tests.cast import Role
from tests.factories import AthleteFactory, CardLineFactory, SetEntryFactory, days_ago
from tests.paper.conftest import Day, pages, printed


def test_ordinary_card_is_one_page_of_a5(day: Day) -> None:
    pdf = printed(day.sheets(day.cast.athlete))
    sizes = [(round(page.mediabox.width), round(page.mediabox.height)) for page in PdfReader(BytesIO(pdf)).pages]
    assert sizes == [(420, 595)]  # 148 x 210 mm in points


def test_head_says_whose_when_where_and_from_when(day: Day) -> None:
    (text,) = pages(printed(day.sheets(day.cast.athlete)))
    told = ["Ingrid Moss", "Squat and pull", "Mill Lane gym", "Seniors · week 3 · revision 1 · as of 16:40"]
    assert [words for words in told if words not in text] == []


def test_line_says_all_that_the_lift_needs(day: Day) -> None:
    text = day.text(day.cast.athlete)
    told = [
        "Warm-up Light jog 120 s 8 min",
        "4 rounds. A1, straight into A2. Rest 2:00–2:30 after A2.",
        "A1 Front squat 60 kg × 5 total with the bar · barbell 20 kg, each end 20 · Elbows high",
        "Ramp up, kg: ☐ 30 × 5 ☐ 45 × 5",
        "A1: Safety arms set just below the deepest point first",
        "60 × 5 60 × 5 60 × 5 60 × 5",
        "A2 Split squat 8 each side L 8 R 8 L 8 R 8 L 8 R 8 L 8 R 8",
    ]
    assert [words for words in told if words not in text] == []


def test_foot_asks_for_effort_pain_and_a_note(day: Day) -> None:
    """The scale is Foster's: 0 rest to 10 maximal, no words at 6, 8 and 9."""
    text = day.text(day.cast.athlete)
    told = [
        "0 rest · 1 very, very easy · 2 easy · 3 moderate · 4 somewhat hard",
        "· 5 hard · 6 · 7 very hard · 8 · 9 · 10 maximal",
        "Minutes",
        "Hurts, where and which side How much, 0–10 ☐ only sore muscles",
        "Note to coach",
        "Pain, dizziness or a knock to the head: stop and tell the coach at once.",
    ]
    assert [words for words in told if words not in text] == []


def test_unknown_load_leaves_room_to_write_it_with_its_unit(day: Day) -> None:
    text = day.text(day.cast.athlete)
    assert "B1 Seated press find it × 8 in each hand" in text
    assert text.count("____ kg × 8") == 3


def test_athlete_who_thinks_in_pounds_reads_both(day: Day) -> None:
    athlete = AthleteFactory.create(given_name="Ines", family_name="Marlow", squad=day.cast.squad, unit="lb")
    assert "A1 Front squat 60 kg (132 lb) × 5" in day.text(athlete)


def test_last_time_stands_beside_the_line(day: Day) -> None:
    line = CardLineFactory.create(exercise=day.squat.exercise, revision__card__athlete=day.cast.athlete)
    SetEntryFactory.create(line=line, reps=5, load_value=60, load_unit="kg", load_kg=60, on_date=days_ago(7))
    assert "last time 60 kg × 5" in day.text(day.cast.athlete)


@pytest.mark.parametrize(("who", "stands"), [("child", True), ("athlete", False)])
def test_minors_card_carries_caution_and_the_coachs_initials(day: Day, who: str, stands: bool) -> None:
    text = day.text(getattr(day.cast, who))
    assert ("Coach’s initials" in text, "Under 18: only with a qualified coach present" in text) == (
        stands,
        stands,
    )


def test_waiting_card_prints_only_the_notice(day: Day) -> None:
    report_red_flag(
        actor=day.cast.actor_of(Role.COACH), athlete=day.cast.athlete, uuid=uuid4(), kind=RedFlagKind.HEAD_KNOCK
    )
    text = day.text(day.cast.athlete)
    assert "Do not train." in text
    assert [word for word in ("Front squat", "60", "How hard", "head", "Goes on") if word in text] == []


def test_done_sets_are_printed_as_done(day: Day) -> None:
    sheets = day.sheets(day.cast.athlete)
    line = Card.objects.get(pk=sheets[0].card_id).revisions.get().lines.get(label="A1")
    SetEntryFactory.create(line=line, reps=4, load_value=55, load_unit="kg", load_kg=55, round=1)
    SetEntryFactory.create(line=line, kind="skipped", reps=None, round=2)
    (text,) = pages(printed(load_sheets(Card.objects.filter(pk=sheets[0].card_id))))
    assert "55 × 4 skipped 60 × 5 60 × 5" in text
