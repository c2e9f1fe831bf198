"""The sizes of paper, from their standards (ISO 216; ANSI Letter is 8.5 × 11 in), and what is remembered."""

from __future__ import annotations

from io import BytesIO
from typing import cast

import pytest
from django.urls import reverse
from pypdf import PdfReader
from pypdf.generic import BooleanObject, DictionaryObject

from coachhub.cards.sheet import Sheet
from coachhub.paper.cards import cards_pdf
from coachhub.paper.sizes import SIZES
from tests.cast import Role
from tests.factories import AthleteFactory
from tests.paper.conftest import AS_OF, Day, address_of, pages

MM = 72 / 25.4


def of_size(sheets: list[Sheet], code: str) -> bytes:
    return cards_pdf(sheets, as_of=AS_OF, address_of=address_of, with_health=True, size=SIZES[code])


@pytest.mark.parametrize(
    ("code", "width_mm", "height_mm", "count"),
    [
        ("a5", 148, 210, 3),
        ("a4", 210, 297, 3),
        ("a4-two", 297, 210, 2),
        ("half-letter", 139.7, 215.9, 3),
        ("letter", 215.9, 279.4, 3),
        ("letter-two", 279.4, 215.9, 2),
    ],
)
def test_pages_have_the_size_asked_for(day: Day, code: str, width_mm: float, height_mm: float, count: int) -> None:
    squad = [AthleteFactory.create(squad=day.cast.squad) for _ in range(3)]
    pdf = PdfReader(BytesIO(of_size(day.sheets(*squad), code)))
    boxes = {(round(page.mediabox.width / MM, 1), round(page.mediabox.height / MM, 1)) for page in pdf.pages}
    assert (boxes, len(pdf.pages)) == ({(width_mm, height_mm)}, count)


def test_two_to_a_sheet_hold_the_same_words_tags_and_bookmarks(day: Day) -> None:
    sheets = day.sheets(day.cast.athlete, day.cast.team_mate)
    one_by_one, both = of_size(sheets, "a5"), of_size(sheets, "a4-two")
    assert " ".join(pages(both)) == " ".join(pages(one_by_one))
    pdf = PdfReader(BytesIO(both))
    assert [item["/Title"] for item in pdf.outline] == ["Ingrid Moss", "Petra Vane"]  # type: ignore[call-overload]
    root = cast(DictionaryObject, pdf.trailer["/Root"])
    assert cast(DictionaryObject, root["/MarkInfo"])["/Marked"] == BooleanObject(True)


def test_more_than_a_document_of_two_up_cards_is_one_pdf(day: Day) -> None:
    squad = [AthleteFactory.create(squad=day.cast.squad) for _ in range(22)]
    sheets = day.sheets(*squad)
    pdf = PdfReader(BytesIO(of_size(sheets, "letter-two")))
    assert len(pdf.pages) == 11
    assert [item["/Title"] for item in pdf.outline] == [s.athlete_name for s in sheets]  # type: ignore[call-overload]


def test_size_is_remembered_where_it_was_chosen(day: Day) -> None:
    give, coach = day.give(day.cast.athlete), day.cast.client_of(Role.COACH)
    url = reverse("paper:assignment_pdf", args=[give.pk])
    coach.post(url, {"card": [give.cards.get().pk], "size": "letter-two"})
    assert '<option value="letter-two" selected>' in coach.get(url).content.decode()
    assert '<option value="a5" selected>' in day.cast.client_of(Role.OWNER).get(url).content.decode()


def test_unknown_size_prints_nothing(day: Day) -> None:
    give = day.give(day.cast.athlete)
    response = day.cast.client_of(Role.COACH).post(
        reverse("paper:card_pdf", args=[give.cards.get().pk]), {"size": "a3"}
    )
    assert (response.status_code, "Choose from the list." in response.content.decode()) == (422, True)


def test_child_has_a_box_for_the_coachs_initials_in_each_line(day: Day) -> None:
    child = AthleteFactory.create(given_name="Juno", family_name="Ashby", is_minor=True, squad=day.cast.squad)
    assert "1 2 3 4 Coach A1 Front squat" in day.text(child)
    assert "1 2 3 4 A1 Front squat" in day.text(day.cast.athlete)


def test_childs_rows_of_boxes_end_in_one_for_initials(day: Day) -> None:
    child = AthleteFactory.create(given_name="Juno", family_name="Ashby", is_minor=True, squad=day.cast.squad)
    type(day.squat.group).objects.filter(pk=day.squat.group.pk).update(rounds_min=6, rounds_max=6)
    text = day.text(child)
    assert "A1 Front squat 60 kg × 5" in text
    assert text.count("6 60 × 5 Coach") == 1
    assert "6 60 × 5 Coach" not in day.text(day.cast.athlete)
