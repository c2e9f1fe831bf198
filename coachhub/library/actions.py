"""Verbs on venues and what stands there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal

from django.db import transaction

from coachhub.base.actor import Actor
from coachhub.library.access import check_may_edit
from coachhub.library.models import StockBar, StockItem, StockPlate, StockWeight, Venue


@transaction.atomic
def add_venue(*, actor: Actor, name: str, unit: str, is_supervised: bool, note: str = "") -> Venue:
    check_may_edit(actor)
    venue = Venue(name=name, unit=unit, is_supervised=is_supervised, note=note)
    venue.save()
    return venue


@transaction.atomic
def change_venue(*, actor: Actor, venue: Venue, name: str, unit: str, is_supervised: bool, note: str) -> None:
    check_may_edit(actor)
    venue.name, venue.unit, venue.is_supervised, venue.note = name, unit, is_supervised, note
    venue.save()


@transaction.atomic
def replace_stock(
    *,
    actor: Actor,
    venue: Venue,
    bars: Sequence[StockBar] = (),
    plates: Sequence[StockPlate] = (),
    weights: Sequence[StockWeight] = (),
    counts: Mapping[str, int] | None = None,
) -> None:
    """Make the stock exactly this: rows not saved yet, and the count of each other kind of equipment."""
    check_may_edit(actor)
    for there in (venue.bars, venue.plates, venue.weights, venue.items):
        there.all().delete()
    rows: list[StockBar | StockPlate | StockWeight] = [*bars, *plates, *weights]
    for row in rows:
        row.venue_id = venue.pk
    StockBar.objects.bulk_create(bars)
    StockPlate.objects.bulk_create(plates)
    StockWeight.objects.bulk_create(weights)
    StockItem.objects.bulk_create(
        StockItem(venue=venue, kind=kind, count=count) for kind, count in (counts or {}).items() if count
    )


@transaction.atomic
def add_series(
    *, actor: Actor, venue: Venue, kind: str, lightest: Decimal, heaviest: Decimal, step: Decimal, unit: str, count: int
) -> int:
    """Weights from `lightest` to `heaviest`, `count` pieces each; a mass that is there takes the new count."""
    check_may_edit(actor)
    steps = int((heaviest - lightest) / step) + 1
    StockWeight.objects.bulk_create(
        [
            StockWeight(venue=venue, kind=kind, mass_value=lightest + step * n, mass_unit=unit, count=count)
            for n in range(steps)
        ],
        update_conflicts=True,
        unique_fields=["venue", "kind", "mass_value", "mass_unit"],
        update_fields=["count"],
    )
    return steps
