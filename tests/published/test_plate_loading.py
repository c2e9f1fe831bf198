"""Source: IWF and IPF bars and discs, and a club's limited stock; calculated."""

import json
from decimal import Decimal

import pytest

from coachhub.coaching.loading import Bar, BarLoad, Plate, load_bar
from coachhub.science.units import Unit
from tests.published.figures import rows


@pytest.mark.parametrize("row", rows("plate_loading_checks.csv"), ids=lambda row: f"{row['target']} {row['note']}")
def test_loaded_bar_agrees(row: dict[str, str]) -> None:
    unit: Unit = "lb" if row["note"] == "lb set" else "kg"
    bar = Bar("bar", Decimal(row["bar"]), unit, Decimal(row["collar_each"]))
    pairs: dict[str, int] = json.loads(row["pairs_available"])
    plates = tuple(Plate(Decimal(mass), unit, count) for mass, count in pairs.items())
    expected = BarLoad(
        Decimal(row["loaded_total"]),
        tuple(map(Decimal, row["plates_per_side"].split())),
        Decimal(row["shortfall"]),
    )
    assert load_bar(Decimal(row["target"]), bar, plates) == expected
