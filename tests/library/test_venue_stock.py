"""What a venue can load, and the verbs that say what stands there."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from django.core.exceptions import PermissionDenied

from coachhub.base.actor import STAFF, WRITERS, Actor, ActorKind
from coachhub.coaching.loading import Bar, Plate, Stock, Weight
from coachhub.library import actions
from coachhub.library.models import StockBar, StockItem, StockPlate, StockWeight, Venue
from coachhub.library.queries import stocked_venues, venue_kinds, venue_stock
from tests.factories import VenueFactory

pytestmark = pytest.mark.django_db

COACH = Actor(ActorKind.COACH)


@pytest.fixture
def venue() -> Venue:
    return VenueFactory.create(name="Mill Lane gym")


def fill(venue: Venue) -> None:
    actions.replace_stock(
        actor=COACH,
        venue=venue,
        bars=[
            StockBar(mass_value=20, count=3),
            StockBar(kind="hex_bar", mass_value=45, mass_unit="lb", collar_value=Decimal("0.25"), count=1),
        ],
        plates=[StockPlate(mass_value=Decimal("2.5"), pairs=4), StockPlate(mass_value=25, pairs=2)],
        weights=[
            StockWeight(mass_value=12, count=2),
            StockWeight(kind="kettlebell", mass_value=16, count=1),
            StockWeight(kind="medicine_ball", mass_value=3, count=5),
        ],
        counts={"bench": 2, "box": 0},
    )


def masses(venue: Venue) -> list[tuple[str, Decimal, int]]:
    return [(w.kind, w.mass_value, w.count) for w in venue.weights.all()]


def test_stock_holds_bars_plates_and_weights_as_they_are(venue: Venue) -> None:
    fill(venue)

    assert venue_stock(stocked_venues().get()) == Stock(
        unit="kg",
        bars=(Bar("barbell", Decimal(20), "kg"), Bar("hex_bar", Decimal(45), "lb", Decimal("0.25"))),
        plates=(Plate(Decimal(25), "kg", 2), Plate(Decimal("2.5"), "kg", 4)),
        dumbbells=(Weight("dumbbell", Decimal(12), "kg", 2),),
        kettlebells=(Weight("kettlebell", Decimal(16), "kg", 1),),
        balls=(Weight("medicine_ball", Decimal(3), "kg", 5),),
    )


def test_kinds_name_all_that_can_be_used(venue: Venue) -> None:
    fill(venue)

    expected = {"barbell", "hex_bar", "plates", "dumbbell", "kettlebell", "medicine_ball", "bench", "wall", "partner"}
    assert venue_kinds(stocked_venues().get()) == expected


def test_kinds_of_an_empty_venue_are_what_is_always_there(venue: Venue) -> None:
    StockBar(venue=venue, mass_value=20, count=0).save()
    StockPlate(venue=venue, mass_value=20, pairs=0).save()
    StockWeight(venue=venue, mass_value=20, count=0).save()
    StockItem(venue=venue, kind="bench", count=0).save()

    assert venue_kinds(venue) == {"wall", "partner"}
    assert venue_stock(venue).bars == ()


@pytest.mark.parametrize("count", [1, 30])
def test_venues_cost_six_queries_however_many(count: int, django_assert_num_queries: Any) -> None:
    for _ in range(count):
        VenueFactory.create(stock=True)

    with django_assert_num_queries(6):
        loaded = [(venue_stock(venue), venue_kinds(venue)) for venue in stocked_venues()]

    assert len(loaded) == count


def test_replacing_the_stock_leaves_nothing_of_the_old_and_no_other_venue_touched(venue: Venue) -> None:
    other = VenueFactory.create(stock=True)
    before = masses(other)
    fill(venue)

    actions.replace_stock(actor=COACH, venue=venue, weights=[StockWeight(mass_value=8)])

    assert masses(venue) == [("dumbbell", Decimal(8), 2)]
    assert (venue.bars.count(), venue.plates.count(), venue.items.count()) == (0, 0, 0)
    assert masses(other) == before


def test_series_adds_each_mass_and_recounts_those_there(venue: Venue) -> None:
    StockWeight(venue=venue, mass_value=6, count=1).save()
    StockWeight(venue=venue, mass_value=7, count=1).save()

    steps = actions.add_series(
        actor=COACH,
        venue=venue,
        kind="dumbbell",
        lightest=Decimal(4),
        heaviest=Decimal(8),
        step=Decimal(2),
        unit="kg",
        count=2,
    )

    assert steps == 3
    assert masses(venue) == [("dumbbell", Decimal(m), n) for m, n in ((4, 2), (6, 2), (7, 1), (8, 2))]


@pytest.mark.parametrize("kind", sorted(STAFF - WRITERS))
def test_only_owner_and_coaches_change_venues(venue: Venue, kind: ActorKind) -> None:
    reader = Actor(kind)

    with pytest.raises(PermissionDenied):
        actions.add_venue(actor=reader, name="Hall", unit="kg", is_supervised=True)
    with pytest.raises(PermissionDenied):
        actions.change_venue(actor=reader, venue=venue, name="Hall", unit="kg", is_supervised=True, note="")
    with pytest.raises(PermissionDenied):
        actions.replace_stock(actor=reader, venue=venue)

    assert [v.name for v in Venue.objects.all()] == ["Mill Lane gym"]
