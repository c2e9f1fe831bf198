"""Verbs on venues and what stands there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from django.db import transaction

from coachhub.base.actor import Actor
from coachhub.base.clock import now
from coachhub.library.access import check_may_edit
from coachhub.library.models import StockBar, StockItem, StockPlate, StockScale, StockWeight, Venue


@transaction.atomic
def add_venue(*, actor: Actor, **particulars: Any) -> Venue:
    """Particulars are fields of `Venue`: name, unit, is_supervised, note, lane and places."""
    check_may_edit(actor)
    venue = Venue(**particulars)
    venue.save()
    return venue


@transaction.atomic
def change_venue(*, actor: Actor, venue: Venue, **particulars: Any) -> None:
    check_may_edit(actor)
    for name, value in particulars.items():
        setattr(venue, name, value)
    venue.save()


@transaction.atomic
def archive_venue(*, actor: Actor, venue: Venue) -> None:
    """Cards that were given there keep it; no new session can be."""
    check_may_edit(actor)
    Venue.objects.filter(pk=venue.pk, archived_at=None).update(archived_at=now())


@transaction.atomic
def bring_back_venue(*, actor: Actor, venue: Venue) -> None:
    check_may_edit(actor)
    Venue.objects.filter(pk=venue.pk).update(archived_at=None)


@transaction.atomic
def replace_stock(
    *,
    actor: Actor,
    venue: Venue,
    bars: Sequence[StockBar] = (),
    plates: Sequence[StockPlate] = (),
    weights: Sequence[StockWeight] = (),
    scales: Sequence[StockScale] = (),
    sized: Sequence[StockItem] = (),
    counts: Mapping[str, int] | None = None,
) -> None:
    """Make the stock exactly this: rows not saved yet, and the count of each other kind of equipment."""
    check_may_edit(actor)
    for there in (venue.bars, venue.plates, venue.weights, venue.items, venue.scales):
        there.all().delete()
    counted = [StockItem(kind=kind, count=count) for kind, count in (counts or {}).items() if count]
    items = [*sized, *counted]
    rows: list[StockBar | StockPlate | StockWeight | StockScale | StockItem] = [
        *bars,
        *plates,
        *weights,
        *scales,
        *items,
    ]
    for row in rows:
        row.venue_id = venue.pk
    StockBar.objects.bulk_create(bars)
    StockPlate.objects.bulk_create(plates)
    StockWeight.objects.bulk_create(weights)
    StockScale.objects.bulk_create(scales)
    StockItem.objects.bulk_create(items)


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
