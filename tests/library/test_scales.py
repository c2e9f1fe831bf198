"""Machines and cables with a scale of their own, bands by colour, boxes by height: typed, kept, said."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from coachhub.coaching.loading import Scale
from coachhub.library import actions
from coachhub.library.forms import VenueForm
from coachhub.library.forms_stock import StockForms
from coachhub.library.models import StockItem, StockScale, Venue
from coachhub.library.queries import stocked_venues, venue_kinds, venue_stock
from coachhub.library.words import item_words, setting_words
from tests.factories import ExerciseFactory, VenueFactory
from tests.library.test_forms_stock import stock_data
from tests.library.test_venue_stock import COACH

pytestmark = pytest.mark.django_db

TOWER = {"name": "Cable tower", "kind": "cable", "unit": "kg", "lightest": "5", "step": "2,5", "heaviest": "10"}


def sent(prefix: str, *rows: dict[str, str]) -> StockForms:
    data = stock_data() | {f"{prefix}-TOTAL_FORMS": str(len(rows))}
    for n, row in enumerate(rows):
        data |= {f"{prefix}-{n}-{field}": value for field, value in row.items()}
    return StockForms.of(VenueFactory.create(), data)


def saved(*rows: dict[str, str]) -> Venue:
    form = sent("scales", *rows)
    assert form.is_valid(), form.scales.errors
    venue = VenueFactory.create(name="Mill Lane gym")
    actions.replace_stock(actor=COACH, venue=venue, **form.values())
    return stocked_venues().get(name="Mill Lane gym")


def test_scale_becomes_part_of_the_stock() -> None:
    pulldown = ExerciseFactory.create(name="Lat pulldown")
    leg = {"name": "Pulldown", "kind": "machine", "unit": "pl", "each": "1; 2; 4,5", "only_for": "LAT pulldown"}

    venue = saved(TOWER, leg)

    assert venue_stock(venue).scales == (
        Scale("cable", "kg", (Decimal(5), Decimal("7.5"), Decimal(10))),
        Scale("machine", "pl", (Decimal(1), Decimal(2), Decimal("4.5")), pulldown.pk),
    )
    assert {"cable", "machine"} <= venue_kinds(venue)


def test_form_shows_the_scales_as_they_were_typed() -> None:
    form = StockForms.of(saved(TOWER, {"name": "Stack", "kind": "machine", "unit": "pl", "each": "1; 2; 4"}))

    shown = [{field.name: field.value() for field in row} for row in form.scales.initial_forms]
    assert [shown[0][name] for name in ("lightest", "step", "heaviest")] == ["5", "2.5", "10"]
    assert (shown[1]["each"], shown[1].get("lightest")) == ("1; 2; 4", None)


@pytest.mark.parametrize(
    ("change", "errors"),
    [
        ({"heaviest": ""}, {"lightest": ["Write from, step and to; or each setting."]}),
        ({"heaviest": "4"}, {"heaviest": ["This is lighter than the first one."]}),
        ({"step": "3"}, {"step": ["These steps do not end at the last one."]}),
        ({"step": "0.01", "heaviest": "1500"}, {"step": ["That would be more than 120 settings."]}),
        ({"each": "5; ten"}, {"each": ["Write numbers with semicolons between, such as 5; 7.5; 12.5."]}),
        ({"each": "0; 5"}, {"each": ["Each is above 0, and 1500 at most."]}),
        ({"each": "NaN"}, {"each": ["Each is above 0, and 1500 at most."]}),
        ({"each": "1.234"}, {"each": ["Two decimals at most."]}),
        ({"only_for": "Nothing"}, {"only_for": ["No exercise has this name."]}),
        ({"name": ""}, {"name": ["What is it called?"]}),
        ({"unit": "x"}, {"unit": ["Select a valid choice. x is not one of the available choices."]}),
    ],
)
def test_mistake_in_a_scale_is_said_beside_it(change: dict[str, str], errors: dict[str, Any]) -> None:
    form = sent("scales", TOWER | change)

    assert not form.is_valid()
    assert form.scales.errors == [errors]


def test_machine_twice_is_said_beside_the_second_but_not_for_another_exercise() -> None:
    ExerciseFactory.create(name="Lat pulldown")

    assert sent("scales", TOWER, TOWER).scales.errors == [
        {},
        {"name": ["This one is in another row; keep one of them."]},
    ]
    assert sent("scales", TOWER, TOWER | {"only_for": "Lat pulldown"}).is_valid()


def test_blank_rows_are_left_out() -> None:
    form = sent("scales", {"name": "", "kind": "machine", "unit": "kg"})

    assert form.is_valid()
    assert form.values()["scales"] == []


def test_bands_and_boxes_are_kept_by_colour_and_height() -> None:
    rows = [
        {"kind": "mini_band", "label": "red", "height_unit": "cm", "count": "6"},
        {"kind": "mini_band", "label": "blue, strong", "height_unit": "cm", "count": "4"},
        {"kind": "box", "height_value": "45,5", "height_unit": "cm", "count": "2"},
        {"kind": "box", "height_value": "18", "height_unit": "in", "count": "1"},
        {"kind": "box", "height_value": "18", "height_unit": "cm", "count": "0"},
        {"kind": "", "height_unit": "cm", "count": "1"},
    ]
    form = sent("sized", *rows)

    assert form.is_valid()
    assert [item_words(item).replace("\N{NO-BREAK SPACE}", " ") for item in form.values()["sized"]] == [
        "mini-band, red",
        "mini-band, blue, strong",
        "box, 45.5 cm",
        "box, 18 in",
    ]


@pytest.mark.parametrize(
    ("row", "errors"),
    [
        ({"kind": "", "label": "red"}, {"kind": ["Which kind is it?"]}),
        ({"kind": "box", "count": ""}, {"count": ["How many are there? 0 takes the row away."]}),
        ({"kind": "box", "height_value": "251"}, {"height_value": ["250 at most."]}),
        ({"kind": "rack"}, {"kind": ["Select a valid choice. rack is not one of the available choices."]}),
    ],
)
def test_mistake_in_a_band_or_box_is_said_beside_it(row: dict[str, str], errors: dict[str, Any]) -> None:
    form = sent("sized", {"height_unit": "cm", "count": "1"} | row)

    assert form.sized.errors == [errors]


def test_band_twice_is_said_beside_the_second() -> None:
    band = {"kind": "long_band", "label": "red", "height_unit": "cm", "count": "1"}

    assert sent("sized", band, band).sized.errors == [
        {},
        {"kind": ["This one is in another row; keep one of them."]},
    ]


def test_box_that_nobody_measured_shows_no_height() -> None:
    venue = VenueFactory.create()
    StockItem(venue=venue, kind="box", count=3).save()

    row = StockForms.of(venue).sized.initial_forms[0]

    assert (row["kind"].value(), row["height_value"].value(), row["count"].value()) == ("box", None, 3)


@pytest.mark.parametrize(
    ("unit", "settings", "words"),
    [
        ("kg", ["5", "7.5", "10"], "5–10 kg in steps of 2.5"),
        ("lb", ["10", "12.5", "20"], "10, 12.5, 20 lb"),
        ("kg", ["5", "10"], "5, 10 kg"),
        ("pl", ["1", "2", "3"], "plates 1–3"),
        ("pl", ["1", "2", "4"], "plates 1, 2, 4"),
    ],
)
def test_words_of_a_scale(unit: str, settings: list[str], words: str) -> None:
    scale = StockScale(kind="cable", name="Tower", unit=unit, settings=settings)

    assert setting_words(scale).replace("\N{NO-BREAK SPACE}", " ") == words


def test_venue_form_takes_lane_and_places_and_no_nonsense() -> None:
    good = VenueForm({"name": "Hall", "unit": "kg", "lane_value": "22,5", "lane_unit": "yd", "capacity": "24"})
    none = VenueForm({"name": "Hall", "unit": "kg", "lane_value": "", "lane_unit": "m", "capacity": "0"})
    bad = VenueForm({"name": "Hall", "unit": "kg", "lane_value": "-3", "lane_unit": "mi", "capacity": "x"})

    assert good.is_valid()
    assert none.is_valid()
    taken = ("lane_value", "lane_unit", "capacity")
    assert [good.cleaned_data[name] for name in taken] == [Decimal("22.5"), "yd", 24]
    assert [none.cleaned_data[name] for name in taken] == [None, "m", None]
    assert sorted(bad.errors) == ["capacity", "lane_unit", "lane_value"]
