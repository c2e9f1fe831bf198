"""Families of the starting library run from easiest to hardest; combinations load what either part does.

Source of the order: common practice; the swaps "easier" and "harder" say the same.
"""

from __future__ import annotations

import pytest

from tests.library import starting_library as lib

ROWS = lib.read_library()
BY_KEY = {row["key"]: row for row in ROWS}
SWAPS = [(row, swap) for row in ROWS for swap in row["swaps"]]


def test_families_count_from_one_without_a_gap() -> None:
    families: dict[str, list[int]] = {}
    for row in ROWS:
        if "family" in row:
            families.setdefault(row["family"], []).append(row["family_rank"])
    assert len(families) >= 13
    assert [name for name, places in families.items() if sorted(places) != list(range(1, len(places) + 1))] == []


@pytest.mark.parametrize(("reasons", "is_up"), [({"easier", "build"}, False), ({"harder"}, True)])
def test_swaps_inside_a_family_follow_its_order(reasons: set[str], is_up: bool) -> None:
    inside = [
        (row, BY_KEY[swap["to"]], swap)
        for row, swap in SWAPS
        if swap["reason"] in reasons and "family" in row and BY_KEY[swap["to"]].get("family") == row["family"]
    ]
    wrong = [
        f"{a['key']} → {swap['to']} ({swap['reason']})"
        for a, b, swap in inside
        if (b["family_rank"] > a["family_rank"]) is not is_up
    ]
    assert (wrong, len(inside) >= 20) == ([], True)


def test_lunges_in_several_directions_are_one_family() -> None:
    family = [row for row in ROWS if row.get("family") == "lunge in directions"]
    assert {direction for row in family for direction in row["directions"]} == {
        "forward",
        "lateral",
        "crossover",
        "diagonal",
        "backward",
    }


@pytest.mark.parametrize(
    ("key", "patterns", "parts"),
    [
        ("split-squat-hold-with-row", ["lunge", "pull"], ("bodyweight-split-squat", "single-arm-dumbbell-row")),
        ("reverse-lunge-with-overhead-press", ["lunge", "push"], ("bodyweight-reverse-lunge", "seated-dumbbell-press")),
    ],
)
def test_combination_covers_both_patterns_and_loads_what_either_does(
    key: str, patterns: list[str], parts: tuple[str, str]
) -> None:
    row = BY_KEY[key]
    assert row["patterns"] == patterns
    assert {region for part in parts for region in BY_KEY[part]["regions"]} - set(row["regions"]) == set()
    assert {demand for part in parts for demand in BY_KEY[part]["demands"]} - set(row["demands"]) == set()
