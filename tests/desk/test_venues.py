"""Venues on the desk: list, page, particulars, stock and series; what is wrong loses nothing."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from pytest_django.asserts import assertRedirects

from coachhub.base.clock import now
from coachhub.desk.pages.venues import VenuePage, VenuesPage
from coachhub.library.models import StockBar, Venue
from tests.cast import Cast
from tests.factories import ExerciseFactory, VenueFactory
from tests.library.test_forms_stock import SERIES, stock_data

pytestmark = pytest.mark.django_db

HTMX = {"HX-Request": "true"}


@pytest.fixture
def coach(cast: Cast) -> Client:
    return cast.client_of("coach")


def url(name: str, venue: Venue) -> str:
    return reverse(f"desk:{name}", kwargs={"pk": venue.pk})


def test_list_says_what_stands_where() -> None:
    VenueFactory.create(name="Mill Lane gym", stock=True)
    VenueFactory.create(name="On the road", is_supervised=False)
    VenueFactory.create(name="Old shed", archived_at=now())

    assert [(line.venue.name, line.stock) for line in VenuesPage.of().lines] == [
        ("Mill Lane gym", "3 bars, 25 pairs of plates, 30 weights to hold, 21 other pieces"),
        ("On the road", ""),
    ]


def test_list_offers_writers_a_way_to_add_and_readers_none(cast: Cast) -> None:
    add = reverse("desk:venue_add").encode()

    assert add in cast.client_of("coach").get(reverse("desk:venues")).content
    assert add not in cast.client_of("assistant").get(reverse("desk:venues")).content


@pytest.mark.parametrize("count", [1, 30])
def test_list_costs_six_queries_however_long(count: int, django_assert_num_queries: Any) -> None:
    for _ in range(count):
        VenueFactory.create(stock=True)

    with django_assert_num_queries(6):
        assert len(VenuesPage.of().lines) == count


def test_page_shows_the_stock_and_what_can_be_done() -> None:
    venue = VenueFactory.create(name="Mill Lane gym", stock=True)
    StockBar(venue=venue, kind="hex_bar", mass_value=25, collar_value=Decimal("0.25")).save()
    ExerciseFactory.create(needs=[["barbell"], ["rack"]])
    ExerciseFactory.create(needs=[["sled"]])

    page = VenuePage.of(venue.pk)

    plain = [(str(t.heading), t.rows[0][0].replace("\N{NO-BREAK SPACE}", " "), t.rows[0][1]) for t in page.tables]
    assert plain == [
        ("Barbells", "20 kg", "3"),
        ("Hex bars", "25 kg, collars 0.25 kg each", "1"),
        ("Plates", "25 kg", "4 pairs"),
        ("Dumbbells", "4 kg", "2"),
        ("Bands and boxes", "box", "2"),
    ]
    assert [(str(label), count) for label, count in page.items][:2] == [("rack", 3), ("safety arms", 3)]
    assert (page.can_do, page.all_exercises, page.is_empty) == (1, 2, False)


def test_page_of_an_empty_venue_says_what_that_means(coach: Client) -> None:
    assert b"No stock entered" in coach.get(url("venue", VenueFactory.create())).content


def test_venue_put_away_answers_404(coach: Client) -> None:
    assert coach.get(url("venue", VenueFactory.create(archived_at=now()))).status_code == 404


def test_adding_a_venue_leads_to_its_stock(coach: Client) -> None:
    data = {"name": "  School   hall ", "unit": "lb", "note": "Key at the desk"}

    response = coach.post(reverse("desk:venue_add"), data)

    venue = Venue.objects.get()
    assert (venue.name, venue.unit, venue.is_supervised, venue.note) == ("School hall", "lb", False, "Key at the desk")
    assertRedirects(response, url("venue_stock", venue))


def test_adding_a_venue_with_mistakes_keeps_the_rest(coach: Client) -> None:
    VenueFactory.create(name="School hall")
    data = {"name": "school HALL", "unit": "stone", "note": "Key at the desk"}

    response = coach.post(reverse("desk:venue_add"), data)

    form = response.context["form"]
    assert (response.status_code, sorted(form.errors)) == (422, ["name", "unit"])
    assert form["note"].value() == "Key at the desk"
    assert Venue.objects.count() == 1


def test_changing_a_venue(coach: Client) -> None:
    venue = VenueFactory.create(name="School hall")

    response = coach.post(url("venue_edit", venue), {"name": "Hall", "unit": "kg", "note": "", "is_supervised": "on"})

    assertRedirects(response, url("venue", venue))
    venue.refresh_from_db()
    assert (venue.name, venue.search_key, venue.is_supervised) == ("Hall", "hall", True)


def test_changing_a_venue_with_a_mistake_still_says_which_it_is(coach: Client) -> None:
    venue = VenueFactory.create(name="School hall")

    response = coach.post(url("venue_edit", venue), {"name": "x" * 61, "unit": "kg"})

    assert response.status_code == 422
    assert b"<h1>Change School hall</h1>" in response.content


def test_saving_the_stock_makes_it_so(coach: Client) -> None:
    venue = VenueFactory.create(stock=True)

    response = coach.post(url("venue_stock", venue), stock_data(("20", "2"), ("", "1"), **{"items-bench": "1"}))

    assertRedirects(response, url("venue", venue))
    assert [(plate.mass_value, plate.pairs) for plate in venue.plates.all()] == [(Decimal(20), 2)]
    assert [(item.kind, item.count) for item in venue.items.all()] == [("bench", 1)]
    assert (venue.bars.count(), venue.weights.count()) == (0, 0)


@pytest.mark.parametrize("headers", [{}, HTMX])
def test_saving_a_stock_with_mistakes_changes_nothing_and_keeps_what_was_written(
    coach: Client, headers: dict[str, str]
) -> None:
    venue = VenueFactory.create(stock=True)
    data = stock_data(("-20", "2"), ("12.5", "3"), **{"items-bench": "many", "items-mat": "7"})

    response = coach.post(url("venue_stock", venue), data, headers=headers)

    html = response.content.decode()
    assert response.status_code == 422
    assert "Mass: Too light to be true; 0.01 at least." in html
    assert "Write a whole number." in html
    assert [f'value="{value}"' in html for value in ("-20", "12.5", "many", "7")] == [True] * 4
    assert venue.plates.count() == 7


def test_stock_page_can_be_sent_back_as_it_is(coach: Client) -> None:
    venue = VenueFactory.create(stock=True)
    form = coach.get(url("venue_stock", venue)).context["form"]
    before = list(venue.weights.values_list("kind", "mass_value", "mass_unit", "count"))

    response = coach.post(url("venue_stock", venue), filled_in(form))

    assert response.status_code == 302
    assert list(venue.weights.values_list("kind", "mass_value", "mass_unit", "count")) == before
    assert (venue.bars.count(), venue.plates.count(), venue.items.count()) == (1, 7, 6)


def filled_in(form: Any) -> dict[str, str]:
    """What a browser sends of the page untouched."""
    tables = (form.bars, form.plates, form.weights, form.scales, form.sized)
    rows = [part for rows in tables for part in (rows.management_form, *rows)]
    fields = [field for part in (*rows, form.counts) for field in part]
    return {field.html_name: "" if field.value() is None else str(field.value()) for field in fields}


def test_adding_a_series_puts_each_mass_in_the_stock(coach: Client) -> None:
    venue = VenueFactory.create()

    response = coach.post(url("venue_series", venue), SERIES)

    assertRedirects(response, url("venue_stock", venue))
    assert [(w.kind, w.mass_value, w.count) for w in venue.weights.all()] == [
        ("dumbbell", Decimal(mass), 2) for mass in range(4, 33, 2)
    ]


def test_adding_a_series_with_a_mistake_keeps_the_rest(coach: Client) -> None:
    venue = VenueFactory.create()

    response = coach.post(url("venue_series", venue), SERIES | {"step": "3"})

    form = response.context["form"]
    assert (response.status_code, form.errors) == (422, {"step": ["These steps do not end at the last mass."]})
    assert form["lightest"].value() == "4"
    assert not venue.weights.exists()
