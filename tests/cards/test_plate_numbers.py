"""A stack with numbered plates: what was set is kept as a number, told as one, and never becomes kilograms."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from uuid import uuid4

import pytest

from coachhub.base.clock import now
from coachhub.cards.actions import EntryDraft, log_entries
from coachhub.cards.models import Assignment, Card, SetEntry
from coachhub.cards.queries import load_sheet
from coachhub.cards.sheet import SheetLine
from coachhub.cards.words import load_text, mass_text, meaning_text
from coachhub.coaching.facts import Mass
from coachhub.library.models import EquipmentNeed, Exercise, StockScale
from tests.cards.conftest import Evening

PLATE = Mass(Decimal(7), "pl")


@pytest.fixture
def row(evening: Evening) -> Exercise:
    """The first line of the session is a machine now, and its stack bears numbers."""
    exercise = evening.squat.exercise
    Exercise.objects.filter(pk=exercise.pk).update(load_meaning="machine")
    EquipmentNeed.objects.filter(exercise=exercise).update(kind="machine")
    settings = [str(n) for n in range(1, 16)]
    StockScale(venue=evening.cast.venue, kind="machine", name="Stack", unit="pl", settings=settings).save()
    evening.cast.venue.refresh_from_db()
    evening.squat.load_rule, evening.squat.load, evening.squat.load_unit = "last", None, ""
    evening.squat.save()
    return exercise


def line_of(evening: Evening, assignment: Assignment) -> SheetLine:
    sheet = load_sheet(Card.objects.all(), Card.objects.get(assignment=assignment, athlete=evening.athlete).pk)
    assert sheet is not None
    return next(line for group in sheet.groups for line in group.lines if line.key == evening.squat.line_key)


def test_plate_is_kept_and_told_as_its_number(evening: Evening, row: Exercise) -> None:
    first = evening.assign(evening.athlete, in_days=1)
    card = Card.objects.get(assignment=first, athlete=evening.athlete)
    draft = EntryDraft(uuid4(), evening.squat.line_key, 1, now(), reps=5, load=PLATE)
    log_entries(actor=evening.coach, card=card, drafts=[draft])

    entry = SetEntry.objects.get()
    assert (entry.load_value, entry.load_unit) == (Decimal(7), "pl")
    SetEntry.objects.update(on_date=entry.on_date - timedelta(days=3))
    line = line_of(evening, evening.assign(evening.athlete, in_days=2))
    assert (line.load, load_text(line, "lb")) == (PLATE, "7 pl")
    assert meaning_text(line) == "machine setting, number of the plate (pl)"


def test_plate_is_not_converted_for_a_reader_of_another_unit() -> None:
    assert (mass_text(PLATE, "lb"), mass_text(Mass(Decimal(60), "kg"), "lb")) == ("7 pl", "60 kg (132 lb)")


def test_range_is_told_at_both_ends_to_a_reader_of_another_unit() -> None:
    sixty, more = Mass(Decimal(60), "kg"), Mass(Decimal(65), "kg")
    assert mass_text(sixty, "kg", high=more) == "60–65 kg"
    assert mass_text(sixty, "lb", high=more) == "60–65 kg (132–143 lb)"
