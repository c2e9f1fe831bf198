"""Puts up the venues of the demo with their stock."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from coachhub.base.actor import Actor
from coachhub.demo.data import read
from coachhub.library.actions import add_series, add_venue, replace_stock
from coachhub.library.models import Exercise, StockBar, StockItem, StockPlate, StockScale, Venue


def make_venues(owner: Actor) -> dict[str, Venue]:
    """Return the venues by their key in the file."""
    return {table["key"]: _venue(owner, table) for table in read("venues")["venue"]}


def _venue(owner: Actor, table: dict[str, Any]) -> Venue:
    venue = add_venue(
        actor=owner,
        name=table["name"],
        unit=table["unit"],
        is_supervised=table["is_supervised"],
        lane_value=Decimal(table["lane"]) if "lane" in table else None,
        capacity=table["capacity"],
        note=table["note"],
    )
    replace_stock(
        actor=owner,
        venue=venue,
        bars=[_bar(row, venue.unit) for row in table["bars"]],
        plates=[
            StockPlate(mass_value=Decimal(row["mass"]), mass_unit=venue.unit, pairs=row["pairs"])
            for row in table["plates"]
        ],
        scales=[_scale(row) for row in table["scales"]],
        sized=[_sized(row) for row in table["sized"]],
        counts=table["counts"],
    )
    for row in table["weights"]:
        _add_weights(owner, venue, row)
    return venue


def _bar(row: dict[str, Any], unit: str) -> StockBar:
    return StockBar(kind=row["kind"], mass_value=Decimal(row["mass"]), mass_unit=unit, count=row["count"])


def _scale(row: dict[str, Any]) -> StockScale:
    setting, most, step = (Decimal(row[name]) for name in ("from", "to", "step"))
    settings = []
    while setting <= most:
        settings.append(str(setting))
        setting += step
    only_for = Exercise.objects.get(origin_key=row["exercise"]) if "exercise" in row else None
    return StockScale(kind=row["kind"], name=row["name"], unit=row["unit"], settings=settings, exercise=only_for)


def _sized(row: dict[str, Any]) -> StockItem:
    return StockItem(
        kind=row["kind"],
        label=row.get("label", ""),
        height_value=Decimal(row.get("height", "0")),
        count=row["count"],
    )


def _add_weights(owner: Actor, venue: Venue, row: dict[str, Any]) -> None:
    add_series(
        actor=owner,
        venue=venue,
        kind=row["kind"],
        lightest=Decimal(row["from"]),
        heaviest=Decimal(row["to"]),
        step=Decimal(row["step"]),
        unit=venue.unit,
        count=row["count"],
    )
