"""Many cards in one PDF, and cards that do not fit a page."""

from __future__ import annotations

from io import BytesIO

from pypdf import PdfReader

from coachhub.paper.cards import CARDS_A_DOCUMENT
from coachhub.people.models import Athlete
from tests.factories import AthleteFactory, CircuitGroupFactory, ExerciseFactory, PrescriptionFactory
from tests.paper.conftest import Day, pages, printed


def a_squad(day: Day, count: int) -> list[Athlete]:
    """So many athletes, in the order of family names, made in another."""
    names = sorted((f"{family}{n}", f"Ona{n}") for n in range(-(-count // 3)) for family in ("Wold", "Ash", "Moor"))
    made = [
        AthleteFactory.create(given_name=given, family_name=family, squad=day.cast.squad)
        for family, given in reversed(names)
    ]
    return made[::-1][:count]


def test_squad_of_eighteen_is_one_document_in_the_order_of_names(day: Day) -> None:
    squad = a_squad(day, 18)
    pdf = PdfReader(BytesIO(printed(day.sheets(*reversed(squad)))))
    names = [athlete.name for athlete in squad]
    assert [item.title for item in pdf.outline if not isinstance(item, list)] == names
    assert [name in page.extract_text() for name, page in zip(names, pdf.pages, strict=True)] == [True] * 18


def test_more_cards_than_fit_one_document_are_still_one_pdf(day: Day) -> None:
    squad = a_squad(day, CARDS_A_DOCUMENT + 1)
    pdf = PdfReader(BytesIO(printed(day.sheets(*squad))))
    assert [item.title for item in pdf.outline if not isinstance(item, list)] == [athlete.name for athlete in squad]


def test_same_cards_give_the_same_bytes(day: Day) -> None:
    sheets = day.sheets(*a_squad(day, 3))
    assert printed(sheets) == printed(sheets)


def test_thirty_prescriptions_run_on_under_a_repeated_head(day: Day) -> None:
    segment = day.squat.group.segment
    for position in range(2, 11):
        group = CircuitGroupFactory.create(segment=segment, position=position)
        for n in range(3):
            exercise = ExerciseFactory.create(name=f"Lift {position}-{n}", load_meaning="none")
            PrescriptionFactory.create(group=group, exercise=exercise, position=n)
    first, *rest = pages(printed(day.sheets(day.cast.athlete)))
    assert "Ingrid Moss · " not in first
    assert ["Ingrid Moss · Squat and pull · " in page for page in rest] == [True] * len(rest)
    assert ["Goes on overleaf" in page for page in (first, *rest)] == [True] * len(rest) + [False]
    lifts = [f"Lift {position}-{n}" for position in range(2, 11) for n in range(3)]
    assert [lift for lift in lifts if " ".join((first, *rest)).count(lift) != 1] == []


def test_names_of_sixty_letters_stand_whole(day: Day) -> None:
    given, family = "Wilhelmina-Theodora-Philippa-Konstanze-Alexandrina-Josephine", "Featherstonehaugh-Cholmondeley"
    athlete = AthleteFactory.create(given_name=given, family_name=family, squad=day.cast.squad)
    day.squat.exercise.name = "Front squat with a pause of three seconds in the lowest spot"
    day.squat.exercise.save()
    text = day.text(athlete).replace(" ", "")
    assert f"{given}{family}".replace(" ", "") in text
    assert f"A1{day.squat.exercise.name}60 kg × 5".replace(" ", "") in text
