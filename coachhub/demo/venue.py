"""Puts up the venue of the demo with its stock."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from coachhub.base.actor import Actor
from coachhub.demo.data import read
from coachhub.library.actions import add_series, add_venue, replace_stock
from coachhub.library.models import StockBar, StockPlate, Venue


def make_venue(coach: Actor) -> Venue:
    table = read("venue")
    unit = table["unit"]
    venue = add_venue(
        actor=coach, name=table["name"], unit=unit, is_supervised=table["is_supervised"], note=table["note"]
    )
    replace_stock(
        actor=coach,
        venue=venue,
        bars=[
            StockBar(kind=bar["kind"], mass_value=Decimal(bar["mass"]), mass_unit=unit, count=bar["count"])
            for bar in table["bars"]
        ],
        plates=[
            StockPlate(mass_value=Decimal(plate["mass"]), mass_unit=unit, pairs=plate["pairs"])
            for plate in table["plates"]
        ],
        counts=table["counts"],
    )
    for row in table["weights"]:
        _add_weights(coach, venue, row)
    return venue


def _add_weights(coach: Actor, venue: Venue, row: dict[str, Any]) -> None:
    add_series(
        actor=coach,
        venue=venue,
        kind=row["kind"],
        lightest=Decimal(row["from"]),
        heaviest=Decimal(row["to"]),
        step=Decimal(row["step"]),
        unit=venue.unit,
        count=row["count"],
    )
