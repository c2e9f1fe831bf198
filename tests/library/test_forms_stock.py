"""What is wrong in a row of stock is said beside its field, and the rest is kept."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from coachhub.library.forms import VenueForm
from coachhub.library.forms_stock import COUNTED, SeriesForm, StockForms
from coachhub.library.models import Equipment, Venue
from tests.factories import VenueFactory

pytestmark = pytest.mark.django_db

SERIES = {"kind": "dumbbell", "lightest": "4", "heaviest": "32", "step": "2", "unit": "kg", "count": "2"}


def stock_data(*plates: tuple[str, str], **more: str) -> dict[str, str]:
    """What the stock page sends: rows of plates as (mass, pairs), no bars, no weights."""
    blank = ("bars", "weights", "scales", "sized")
    data = {f"{prefix}-{n}_FORMS": "0" for prefix in blank for n in ("TOTAL", "INITIAL")}
    data |= {"plates-TOTAL_FORMS": str(len(plates)), "plates-INITIAL_FORMS": "0"}
    for n, (mass, pairs) in enumerate(plates):
        row = {"mass_value": mass, "mass_unit": "kg", "pairs": pairs}
        data |= {f"plates-{n}-{field}": value for field, value in row.items()}
    return data | more


def sent(*plates: tuple[str, str], **more: str) -> StockForms:
    return StockForms.of(VenueFactory.create(), stock_data(*plates, **more))


@pytest.mark.parametrize(
    ("mass", "error"),
    [
        ("-20", "Too light to be true; 0.01 at least."),
        ("0", "Too light to be true; 0.01 at least."),
        ("10,000", "Ensure that there are no more than 2 decimal places."),
        ("10000", "That is too heavy to be true; 150 at most."),
        ("ten", "Write a number, such as 2.5."),
        ("NaN", "Write a number, such as 2.5."),
        ("Infinity", "Write a number, such as 2.5."),
        ("2.555", "Ensure that there are no more than 2 decimal places."),
    ],
)
def test_bad_mass_is_said_beside_it_and_the_other_rows_are_kept(mass: str, error: str) -> None:
    form = sent(("20", "4"), (mass, "4"))

    assert not form.is_valid()
    assert form.has_errors
    assert form.plates.errors == [{}, {"mass_value": [error]}]
    assert [row["mass_value"].value() for row in form.plates] == ["20", mass]


@pytest.mark.parametrize(
    ("count", "error"),
    [
        ("-1", "0 or more."),
        ("201", "200 at most."),
        ("two", "Write a whole number."),
        ("1.5", "Write a whole number."),
        ("", "How many are there? 0 takes the row away."),
    ],
)
def test_bad_count_is_said_beside_it(count: str, error: str) -> None:
    assert sent(("20", count)).plates.errors == [{"pairs": [error]}]


def test_mass_twice_is_said_beside_the_second() -> None:
    form = sent(("20", "4"), ("10", "4"), ("20.0", "2"))

    assert not form.is_valid()
    assert form.plates.errors == [{}, {}, {"mass_value": ["This mass is in another row; keep one of them."]}]


def test_rows_without_mass_or_count_are_left_out() -> None:
    form = sent(("2,5", "4"), ("", "4"), ("20", "0"))

    assert form.is_valid()
    assert [(p.mass_value, p.mass_unit, p.pairs) for p in form.values()["plates"]] == [(Decimal("2.5"), "kg", 4)]


def test_counts_keep_what_is_there_only() -> None:
    form = sent(**{"items-bench": "2", "items-rack": "0", "items-mat": ""})

    assert form.is_valid()
    assert form.values()["counts"] == {"bench": 2}


def test_nothing_sent_is_not_an_empty_stock() -> None:
    assert StockForms.of(VenueFactory.create(), {}).is_valid() is False


def test_form_of_a_venue_shows_its_stock_and_blank_rows_in_its_unit() -> None:
    form = StockForms.of(VenueFactory.create(stock=True, unit="lb"))

    assert [row["mass_value"].value() for row in form.plates] == [
        "25",
        "20",
        "15",
        "10",
        "5",
        "2.5",
        "1.25",
        *[None] * 3,
    ]
    assert [row["mass_unit"].value() for row in form.bars] == ["kg", "lb", "lb", "lb"]
    assert form.counts["rack"].value() == 3


def test_every_kind_of_equipment_is_either_counted_or_has_rows_of_its_own() -> None:
    with_mass = {"barbell", "hex_bar", "plates", "dumbbell", "kettlebell", "medicine_ball", "slam_ball"}
    with_size = {"mini_band", "long_band", "box", "low_box", "step"}

    assert {code for code, _ in COUNTED} == set(Equipment.values) - with_mass - with_size - {"wall", "partner"}


@pytest.mark.parametrize(
    ("change", "errors"),
    [
        ({}, {}),
        ({"heaviest": "4"}, {}),
        ({"lightest": "1.25", "heaviest": "3.75", "step": "1,25"}, {}),
        ({"heaviest": "2"}, {"heaviest": ["This is lighter than the first one."]}),
        ({"heaviest": "33"}, {"step": ["These steps do not end at the last mass."]}),
        ({"step": "0.25"}, {"step": ["That would be more than 60 masses."]}),
        ({"step": "0"}, {"step": ["Too light to be true; 0.01 at least."]}),
        ({"lightest": "x"}, {"lightest": ["Write a number, such as 2.5."]}),
    ],
)
def test_series_says_what_does_not_fit(change: dict[str, str], errors: dict[str, Any]) -> None:
    assert SeriesForm(SERIES | change).errors == errors


@pytest.mark.parametrize("name", ["Élan hall", " elan  HALL "])
def test_venue_name_taken_is_refused_whatever_its_accents(name: str) -> None:
    VenueFactory.create(name="Elan hall")

    assert VenueForm({"name": name, "unit": "kg"}).errors == {"name": ["There is a venue with this name."]}


def test_venue_keeps_its_own_name() -> None:
    venue = VenueFactory.create(name="Elan hall")

    assert VenueForm({"name": "Élan hall", "unit": "kg"}, instance=venue).is_valid()


def test_venue_name_takes_sixty_characters_and_no_more() -> None:
    long = VenueForm({"name": "x" * 61, "unit": "kg"})

    assert VenueForm({"name": "x" * 60, "unit": "kg"}).is_valid()
    assert list(long.errors) == ["name"]
    assert Venue.objects.count() == 0
