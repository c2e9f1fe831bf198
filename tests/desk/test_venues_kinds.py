"""A venue's machines, lane and places on its page; putting a venue away and bringing it back."""

from __future__ import annotations

from decimal import Decimal

import pytest
from django.test import Client
from django.urls import reverse
from pytest_django.asserts import assertRedirects

from coachhub.base.clock import now
from coachhub.desk.pages.venues import VenuePage, VenuesPage
from coachhub.library.models import StockItem, StockScale, Venue
from tests.cast import Cast
from tests.desk.test_venues import filled_in, url
from tests.factories import ExerciseFactory, VenueFactory
from tests.library.test_forms_stock import stock_data

pytestmark = pytest.mark.django_db


@pytest.fixture
def coach(cast: Cast) -> Client:
    return cast.client_of("coach")


@pytest.fixture
def hall() -> Venue:
    venue = VenueFactory.create(name="School hall", lane_value=Decimal("22.5"), lane_unit="yd", capacity=24)
    pulldown = ExerciseFactory.create(name="Lat pulldown")
    settings = ["5", "10", "15"]
    StockScale(venue=venue, kind="cable", name="Tower", unit="kg", settings=settings).save()
    StockScale(venue=venue, kind="machine", name="Stack", unit="pl", settings=["1", "2"], exercise=pulldown).save()
    StockItem(venue=venue, kind="box", height_value=45, count=2).save()
    return venue


def test_page_shows_machines_boxes_lane_and_places(coach: Client, hall: Venue) -> None:
    page = VenuePage.of(hall.pk)

    shown = {str(table.heading): table.rows for table in page.tables}
    assert shown == {
        "Machines and cables": [
            ("Tower", "5–15\N{NO-BREAK SPACE}kg in steps of 5"),
            ("Stack, for Lat pulldown alone", "plates 1, 2"),
        ],
        "Bands and boxes": [("box, 45\N{NO-BREAK SPACE}cm", "2")],
    }
    html = coach.get(url("venue", hall)).content.decode()
    assert "places for 24 · carry lane 22.5\N{NO-BREAK SPACE}yd" in html


def test_list_counts_machines(hall: Venue) -> None:
    assert [line.stock for line in VenuesPage.of().lines] == ["2 machines or cables, 2 other pieces"]


def test_stock_page_with_machines_can_be_sent_back_as_it_is(coach: Client, hall: Venue) -> None:
    form = coach.get(url("venue_stock", hall)).context["form"]
    before = list(hall.scales.values_list("kind", "name", "unit", "settings", "exercise"))

    response = coach.post(url("venue_stock", hall), filled_in(form))

    assert response.status_code == 302
    assert list(hall.scales.values_list("kind", "name", "unit", "settings", "exercise")) == before
    assert list(hall.items.values_list("kind", "height_value", "count")) == [("box", Decimal(45), 2)]


def test_mistake_in_a_machine_keeps_all_that_was_typed(coach: Client, hall: Venue) -> None:
    row = {"name": "Low <row>", "kind": "cable", "unit": "kg", "each": "5; ten", "only_for": "Nobody"}
    data = stock_data() | {f"scales-0-{field}": value for field, value in row.items()}

    response = coach.post(url("venue_stock", hall), data | {"scales-TOTAL_FORMS": "1"})

    html = response.content.decode()
    assert (response.status_code, hall.scales.count()) == (422, 2)
    assert [f'value="{text}"' in html for text in ("Low &lt;row&gt;", "5; ten", "Nobody")] == [True] * 3
    assert "Write numbers with semicolons between, such as 5; 7.5; 12.5." in html


def test_venue_put_away_leaves_the_list_and_comes_back(coach: Client, hall: Venue) -> None:
    response = coach.post(url("venue_archive", hall))

    assertRedirects(response, reverse("desk:venues"))
    page = VenuesPage.of()
    assert ([line.venue.name for line in page.lines], page.away) == ([], [hall])
    assertRedirects(coach.post(url("venue_restore", hall)), url("venue", hall))
    assert [line.venue.name for line in VenuesPage.of().lines] == ["School hall"]


def test_venues_put_away_are_offered_only_to_who_may_bring_them_back(cast: Cast) -> None:
    old = VenueFactory.create(name="Old shed", archived_at=now())

    pages = [cast.client_of(role).get(reverse("desk:venues")).content.decode() for role in ("coach", "assistant")]

    assert [url("venue_restore", old) in html for html in pages] == [True, False]


def test_name_of_a_venue_put_away_is_taken_and_says_so(coach: Client) -> None:
    VenueFactory.create(name="Old shed", archived_at=now())

    response = coach.post(reverse("desk:venue_add"), {"name": "old SHED", "unit": "kg"})

    assert response.context["form"].errors == {"name": ["A venue that was put away has this name; bring it back."]}
