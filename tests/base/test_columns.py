"""Which column is what, and what cells say."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from coachhub.base.changes import Outcome, RowState, count_states, digest
from coachhub.base.columns import (
    CellError,
    Column,
    Reading,
    RowReader,
    guess_columns,
    guess_day_order,
    read_choice,
    read_day,
    read_number,
    read_whole,
)
from coachhub.base.models import MassUnit
from coachhub.base.tables import Row

COLUMNS = (
    Column("given", "given name", ("first name",)),
    Column("born", "date of birth", ("dob",)),
    Column("note", "note"),
    Column("remark", "remark", ("note",)),
)


def test_columns_are_guessed_by_name_whatever_its_spelling() -> None:
    assert guess_columns(["DOB", "Shoe size", "First-Name "], COLUMNS) == {"given": 2, "born": 0}


def test_a_header_is_guessed_once() -> None:
    assert guess_columns(["note", "x"], COLUMNS) == {"note": 0}


@pytest.mark.parametrize(
    ("cells", "order"),
    [
        (["2012-04-30"], "dmy"),
        (["3.4.2012"], "dmy"),
        (["03/04/2012", "30/04/2012"], "dmy"),
        (["03/04/2012", "04/30/2012"], "mdy"),
        (["03/04/2012"], ""),
        (["30/04/2012", "04/30/2012"], ""),
        ([], "dmy"),
    ],
)
def test_day_order_is_guessed_only_where_the_file_shows_it(cells: list[str], order: str) -> None:
    assert guess_day_order(cells) == order


@pytest.mark.parametrize(
    ("text", "order", "day"),
    [
        ("2012-04-03", "mdy", date(2012, 4, 3)),
        ("2012-04-03 00:00:00", "dmy", date(2012, 4, 3)),
        ("2012/4/3", "dmy", date(2012, 4, 3)),
        ("3. 4. 2012", "dmy", date(2012, 4, 3)),
        ("03/04/2012", "dmy", date(2012, 4, 3)),
        ("03/04/2012", "mdy", date(2012, 3, 4)),
    ],
)
def test_days_are_read(text: str, order: str, day: date) -> None:
    assert read_day(text, order) == day


@pytest.mark.parametrize("text", ["31.2.2012", "3.4.12", "3/4-2012", "yesterday", "2012-13-01", "41030"])
def test_what_is_no_day_is_refused(text: str) -> None:
    with pytest.raises(CellError):
        read_day(text, "dmy")


def test_numbers_are_read_with_their_unit() -> None:
    read = [read_number(text) for text in ("80", "82,5 kg", "176.37LB", "5 kg.")]
    assert read == [(Decimal(80), ""), (Decimal("82.5"), "kg"), (Decimal("176.37"), "lb"), (Decimal(5), "kg")]


@pytest.mark.parametrize("text", ["1,200", "-5", "1e3", "eighty", "٣", "80 kg x"])
def test_what_is_no_number_is_refused(text: str) -> None:
    with pytest.raises(CellError):
        read_number(text)


@pytest.mark.parametrize("text", ["2.5", "5 reps", "five"])
def test_what_is_no_whole_number_is_refused(text: str) -> None:
    with pytest.raises(CellError):
        read_whole(text)


def test_choices_are_read_by_code_word_and_other_words() -> None:
    assert [read_choice(text, MassUnit, {"lbs": "lb"}) for text in ("KG", "pounds (lb)", "lbs")] == ["kg", "lb", "lb"]


def test_unknown_choice_says_what_there_is() -> None:
    with pytest.raises(CellError, match="“stone” is none of: kilograms"):
        read_choice("stone", MassUnit)


def test_formula_is_refused_only_where_it_is_read() -> None:
    reader = RowReader(Row(2, ("x", "a formula"), frozenset([1])), Reading({"given": 0, "note": 1}))
    assert (reader.text("given"), reader.text("born")) == ("x", "")
    with pytest.raises(CellError, match="a formula or an error"):
        reader.text("note")


def test_reading_survives_being_kept_as_data() -> None:
    reading = Reading({"given": 3}, "mdy", "kg", 7)
    assert Reading.from_data(reading.as_data()) == reading


def test_states_are_counted_and_any_change_shows_in_the_digest() -> None:
    rows = [Outcome(2, "a", "wish", is_new=True), Outcome(3, "b", "wish"), Outcome(4, "c", None, errors=("x",))]
    assert count_states(rows) == {"error": 1, "new": 1, "updated": 0, "unchanged": 1}
    assert [row.state for row in rows] == [RowState.NEW, RowState.UNCHANGED, RowState.ERROR]
    assert digest(rows) == digest(list(rows)) != digest(rows[:2])
