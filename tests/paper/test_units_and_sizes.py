"""Each printed kind, on paper of both families, for readers of either unit, in a room of either unit.

1 lb = 0.45359237 kg exactly (international agreement of 1959), so 60 kg are 132 lb and 135 lb are 61 kg.
"""

from __future__ import annotations

from decimal import Decimal
from io import BytesIO

import pytest
from pypdf import PdfReader

from coachhub.cards.models import Card
from coachhub.cards.sheet import Sheet
from coachhub.library.models import StockBar, StockPlate
from coachhub.paper.cards import cards_pdf
from coachhub.paper.kinds import Kind
from coachhub.paper.sheets import sheet_pdf
from coachhub.paper.sizes import SIZES
from tests.cast import Role
from tests.factories import AthleteFactory
from tests.paper.conftest import AS_OF, Day, address_of, pages

MM = 72 / 25.4
# ISO 216 and ANSI Letter, 8.5 × 11 in.
A4, LETTER = (210.0, 297.0), (215.9, 279.4)
SHEETS = {"a5": A4, "a4": A4, "half-letter": LETTER, "letter": LETTER}
CARDS = {"a5": (148.0, 210.0), "a4": A4, "half-letter": (139.7, 215.9), "letter": LETTER}

LIFT = "total with the bar · barbell 20 kg, each end 20 · Elbows high Ramp up, kg: ☐ 30 × 5 ☐ 45 × 5"
BOX, OTHER_BOX = " ".join(["60 × 5"] * 4), " ".join(["60 kg × 5"] * 4)
# What each kind says of the front squat to whom, in a room of kilograms.
SAID: dict[str, list[str]] = {
    "cards": [
        f"Front squat 60 kg × 5 {LIFT} {BOX} A2",
        f"Front squat 60 kg (132 lb) × 5 {LIFT} {OTHER_BOX} A2",
    ],
    "staff": ["Ona Ash 60 kg × 5 8 each side", "Ona Birch 60 kg (132 lb) × 5 8 each side"],
    "wall": ["Ona Ash 60 kg × 5 8 each side", "Ona Birch 60 kg (132 lb) × 5 8 each side", "Ona Cole 5 8 each side"],
    "roll": ["1 Ona Ash ☐", "2 Ona Birch ☐", "3 Ona Cole ☐"],
    "roll-staff": ["1 Ona Ash ☐", "2 Ona Birch ☐", "3 Ona Cole ☐"],
    "guardians": ["Front squat: 4 times 5; Split squat"],
}


def squad(day: Day) -> list[Sheet]:
    """A reader of kilograms, one of pounds, and a child who reads pounds."""
    who = {"Ash": ("kg", False), "Birch": ("lb", False), "Cole": ("lb", True)}
    made = [
        AthleteFactory.create(given_name="Ona", family_name=name, unit=unit, is_minor=minor, squad=day.cast.squad)
        for name, (unit, minor) in who.items()
    ]
    return day.sheets(*made)


def printed(day: Day, sheets: list[Sheet], kind: str, code: str) -> bytes:
    if kind == Kind.CARDS:
        return cards_pdf(sheets, as_of=AS_OF, address_of=address_of, with_health=True, size=SIZES[code])
    given = Card.objects.get(pk=sheets[0].card_id).assignment
    actor = day.cast.actor_of(Role.OWNER)
    return sheet_pdf(Kind(kind), sheets, actor=actor, assignment=given, as_of=AS_OF, size=SIZES[code])


def sizes_of(pdf: bytes) -> set[tuple[float, float]]:
    boxes = [page.mediabox for page in PdfReader(BytesIO(pdf)).pages]
    return {(round(box.width / MM, 1), round(box.height / MM, 1)) for box in boxes}


def sizes_for(kind: str) -> dict[str, tuple[float, float]]:
    """Tables of the squad lie on their side."""
    if kind == Kind.CARDS:
        return CARDS
    lies = kind in (Kind.STAFF, Kind.WALL)
    return {code: (height, width) if lies else (width, height) for code, (width, height) in SHEETS.items()}


@pytest.mark.parametrize("kind", Kind.values)
def test_kind_says_the_same_on_any_paper_to_readers_of_either_unit(day: Day, kind: str) -> None:
    sheets = squad(day)
    said, laid = {}, {}
    for code in CARDS:
        pdf = printed(day, sheets, kind, code)
        # A range may break after its dash.
        said[code], laid[code] = [text.replace("– ", "–") for text in pages(pdf)], sizes_of(pdf)
    assert laid == {code: {size} for code, size in sizes_for(kind).items()}
    assert [code for code in CARDS if said[code] != said["a5"]] == []
    text = " ".join(said["a5"])
    assert [words for words in SAID[kind] if text.count(words) != 1 + (kind == Kind.CARDS and "132" in words)] == []


@pytest.mark.parametrize("kind", [Kind.ROLL, Kind.ROLL_STAFF, Kind.GUARDIANS])
def test_lists_and_guardians_sheets_tell_no_load_in_any_unit(day: Day, kind: Kind) -> None:
    words = " ".join(pages(printed(day, squad(day), kind, "half-letter"))).split()
    assert [word for word in words if word in ("kg", "lb", "60", "(132")] == []


def test_room_of_pounds_is_printed_in_pounds(day: Day) -> None:
    venue = day.cast.venue
    StockBar.objects.filter(venue=venue).update(mass_value=45, mass_unit="lb")
    StockPlate.objects.filter(venue=venue).update(mass_unit="lb")
    day.squat.load, day.squat.load_unit = Decimal(135), "lb"
    day.squat.save()
    first, second, _child = pages(printed(day, squad(day), "cards", "half-letter"))
    assert ("Front squat 135 lb (61 kg) × 5" in first, first.count("135 lb × 5")) == (True, 4)
    assert ("Front squat 135 lb × 5" in second, second.count("135 × 5")) == (True, 4)


def test_load_to_be_found_is_written_in_the_rooms_unit(day: Day) -> None:
    text = pages(printed(day, squad(day), "cards", "half-letter"))
    assert [page.count("____ kg × 8") for page in text] == [3, 3, 3]


def test_load_of_no_known_unit_is_written_in_the_readers_own(day: Day) -> None:
    exercise = day.press.exercise
    exercise.load_meaning = "machine"
    exercise.save()
    exercise.needs.all().delete()
    text = pages(printed(day, squad(day), "cards", "half-letter"))
    assert [(page.count("____ kg × 8"), page.count("____ lb × 8")) for page in text] == [(3, 0), (0, 3), (0, 3)]
