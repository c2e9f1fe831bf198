"""Doses as columns, as fields and in words."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given

from coachhub.coaching.notation import Dose, parse
from coachhub.plans.dose import columns_of, dose_of, plain_dose, show_dose, written_dose
from coachhub.plans.dose_entry import DoseEntryError, entry_of, read_entry
from coachhub.plans.dose_words import dose_in_words
from coachhub.plans.models import Prescription
from tests.coaching.doses import doses
from tests.factories import CircuitGroupFactory, ExerciseFactory

EMPTY = {**entry_of(Dose(low=8)), "low": ""}
NUMBER = "A number comes here, such as 60 or 62.5, above 0 and without a unit."
UNFIT = "This does not go with the load rule “%s”: empty it, or choose another rule."
LINES = [
    "6-8 @ 2 RIR",
    "5/side @ 75-80% max 100 kg 1.5 RIR",
    "20.5 m @ 24 kg",
    "30 s hold",
    "10 contacts/direction",
    "8 @ 2 x 22.5-25 lb t20X1",
    "8 @ last",
    "5 @ find 2 RIR max 120 kg",
    '12 @ "a weight you could lift 15 times" 20-30 kg max 40 kg',
]


@given(doses())
def test_dose_comes_back_from_its_columns(dose: Dose) -> None:
    row = Prescription(**columns_of(dose))

    assert plain_dose(row) == replace(dose, sets_min=None, sets_max=None)


@pytest.mark.django_db
def test_dose_comes_back_from_the_database() -> None:
    group, exercise = CircuitGroupFactory.create(rounds_min=3), ExerciseFactory.create()
    for place, text in enumerate(LINES):
        row = Prescription(group=group, exercise=exercise, position=place, **columns_of(parse(text)))
        row.save()
        row.refresh_from_db()
        assert plain_dose(row) == parse(text)


def test_dose_has_the_rounds_of_its_block_or_fewer_sets() -> None:
    row = Prescription(**columns_of(parse("8")))

    assert (dose_of(row, 3, 4), written_dose(row)) == (parse("3-4 x 8"), parse("8"))

    row.sets = 2

    assert (dose_of(row, 3, 4), written_dose(row)) == (parse("2 x 8"), parse("2 x 8"))


def test_whole_amounts_come_back_as_whole_numbers() -> None:
    dose = plain_dose(Prescription(low=Decimal("8.00"), high=Decimal("10.00")))

    assert (repr(dose.low), repr(dose.high)) == ("8", "10")


@given(doses())
def test_dose_comes_back_from_its_fields(dose: Dose) -> None:
    assert read_entry(entry_of(dose)) == dose


@pytest.mark.parametrize(
    ("typed", "field", "message"),
    [
        ({"low": ""}, "low", "An amount is needed."),
        ({"low": "eight"}, "low", NUMBER),
        ({"low": "0"}, "low", '"0": repetitions go from 1 to 100.'),
        ({"high": "6"}, "low", '"8-6": the smaller number comes first.'),
        ({"sets": "four"}, "sets", "Sets are a number or a range, such as 3 or 3-4."),
        ({"sets": "30"}, "sets", '"30": sets go from 1 to 20.'),
        ({"load_rule": "fixed"}, "load", "The load rule “fixed” needs this."),
        ({"load_rule": "fixed", "load": "-20"}, "load", NUMBER),
        ({"load_rule": "fixed", "load": "10,000"}, "load", NUMBER),
        ({"load_rule": "fixed", "load": "10000"}, "load", '"10000": a load is above 0 and at most 500 kg.'),
        ({"load_rule": "fixed", "load": "60", "ceiling": "80"}, "ceiling", UNFIT % "fixed"),
        ({"load": "60"}, "load", UNFIT % "none, bodyweight"),
        ({"load_rule": "percent", "percent": "120"}, "percent", '"120": a percentage goes from 1 to 100.'),
        ({"load_rule": "percent", "percent_high": "80"}, "percent", "The load rule “% of known best” needs this."),
        ({"load_rule": "last", "rir": "1.3"}, "rir", '"1.3": RIR goes in half steps, such as 2 or 1.5.'),
        ({"load_rule": "words", "words": 'a "heavy" one'}, "words", "Leave out the quotation marks."),
        ({"load_rule": "words", "words": "heavy", "load_high": "30"}, "load", "The lower end of the range is missing."),
        ({"tempo": "31"}, "tempo", "A tempo is four figures such as 3110 or 20X1."),
        ({"tempo": "0000"}, "tempo", '"t0000": a tempo is four figures such as t3110 or t20X1.'),
    ],
)  # fmt: skip
def test_fields_that_are_wrong_are_named(typed: dict[str, str], field: str, message: str) -> None:
    with pytest.raises(DoseEntryError) as caught:
        read_entry({**EMPTY, "low": "8", **typed})

    assert (caught.value.field, caught.value.message) == (field, message)


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("3-4 x 6-8 @ 2 RIR", "3–4 × 6–8 @ 2 RIR"),
        ("30 m @ 2 x 20 kg", "30 m @ 2 × 20 kg"),
        ('8 @ "1-2 x as heavy" max 20 kg', '8 @ "1-2 x as heavy" max 20 kg'),
    ],
)
def test_dose_shown_is_typeset_outside_quoted_words(text: str, shown: str) -> None:
    assert show_dose(parse(text)) == shown


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("3-4 x 6-8 @ 2 RIR", "3 to 4 sets of 6 to 8 repetitions, with a load that leaves 2 in reserve"),
        ("1 x 5/side @ 75%", "1 set of 5 repetitions each side, with 75% of the known best"),
        ("3 x 20 m @ 2 x 24 kg", "3 sets of 20 metres, with 24 kg in each hand"),
        ("30 s hold/direction", "holding 30 seconds each direction"),
        ("1 @ last 1.5 RIR", "1 repetition, with the load of last time, with 1.5 in reserve"),
        ("5 @ find 2 RIR max 120 kg", "5 repetitions, finding a load that leaves 2 in reserve, at most 120 kg"),
        ('8 @ "heavy" 20-30 lb', "8 repetitions, “heavy” with 20 to 30 lb"),
        (
            "10 contacts t31X0",
            "10 ground contacts, tempo: lowering 3 s, pause 1 s, lifting as fast as possible, pause 0 s",
        ),
    ],
)
def test_dose_in_words(text: str, words: str) -> None:
    assert dose_in_words(parse(text)) == words
