"""Source: NSCA Essentials, volume-load, calculated."""

from decimal import Decimal

import pytest

from coachhub.science.volume import Lifted, mean_intensity, total_reps, volume_load
from tests.published.figures import rows


def read(written: str) -> list[Lifted]:
    pairs = (part.split("x") for part in written.split())
    return [(Decimal(load), int(reps)) for load, reps in pairs]


@pytest.mark.parametrize("row", rows("volume_load_checks.csv"), ids=lambda row: row["sets_load_x_reps"])
def test_volume_agrees(row: dict[str, str]) -> None:
    sets = read(row["sets_load_x_reps"])
    found = (volume_load(sets), total_reps(sets), f"{mean_intensity(sets):.4f}")
    assert found == (Decimal(row["volume_load_kg"]), int(row["total_reps"]), row["mean_intensity_kg"])
