"""The starting library is whole, consistent and errs on the safe side.

Source of the taxonomy: Movement taxonomy, own compilation; common practice.
Source of the safety rules: common practice; what is in doubt counts as loading and as needing supervision.
"""

from __future__ import annotations

from collections import Counter

import pytest

from coachhub.base.models import Pattern, Region, SegmentKind
from coachhub.library.models import (
    Direction,
    Equipment,
    Laterality,
    LoadMeaning,
    Measure,
    SideSense,
    Spotting,
    SwapReason,
)
from tests.library import starting_library as lib

ROWS = lib.read_library()
BY_KEY = {row["key"]: row for row in ROWS}
SWAPS = [(row, swap) for row in ROWS for swap in row["swaps"]]

CODES: dict[str, set[str]] = {
    "segment": set(SegmentKind.values),
    "laterality": set(Laterality.values),
    "measure": set(Measure.values),
    "load": set(LoadMeaning.values),
    "spotting": set(Spotting.values),
    "patterns": set(Pattern.values),
    "directions": set(Direction.values),
    "demands": lib.DEMANDS,
}
LOADABLE = {
    "bar_total": {"barbell", "hex_bar", "landmine"},
    "per_hand": {"dumbbell", "kettlebell"},
    "machine": {"cable", "machine", "sled"},
}


def _repeated(values: list[str]) -> list[str]:
    return [value for value, times in Counter(values).items() if times > 1]


def _swap_label(row: lib.Row, swap: lib.Row) -> str:
    return f"{row['key']} → {swap['to']} ({swap['reason']})"


# --- form


def test_keys_across_files_unique() -> None:
    assert _repeated([row["key"] for row in ROWS]) == []


def test_names_and_aliases_across_files_unique() -> None:
    names = [name.casefold() for row in ROWS for name in [row["name"], *row["also"]]]
    assert _repeated(names) == []


def test_fields_each_row_complete() -> None:
    assert [row["key"] for row in ROWS if set(row) - lib.MAY_BE_MISSING != lib.FIELDS] == []


def test_key_is_slug_of_name() -> None:
    assert [row["key"] for row in ROWS if row["key"] != lib.slug(row["name"])] == []


@pytest.mark.parametrize("field", CODES)
def test_codes_all_known(field: str) -> None:
    found = {code for row in ROWS for code in ([row[field]] if isinstance(row[field], str) else row[field])}
    assert found - CODES[field] == set()


@pytest.mark.parametrize("field", ["patterns", "directions", "demands", "also"])
def test_lists_never_repeat_a_value(field: str) -> None:
    assert [row["key"] for row in ROWS if _repeated(row[field])] == []


def test_patterns_and_directions_never_empty() -> None:
    assert [row["key"] for row in ROWS if not row["patterns"] or not row["directions"]] == []


def test_equipment_groups_filled_and_known() -> None:
    assert [row["key"] for row in ROWS if not all(row["equipment"])] == []
    assert {kind for row in ROWS for kind in lib.kinds(row)} - set(Equipment.values) == set()


def test_regions_known_and_never_empty() -> None:
    assert [row["key"] for row in ROWS if not row["regions"]] == []
    assert {region for row in ROWS for region in row["regions"]} - set(Region.values) == set()
    assert {sense for row in ROWS for sense in row["regions"].values()} - set(SideSense.values) == set()


def test_text_lengths_kept() -> None:
    too_long = [
        text
        for row in ROWS
        for limit, texts in (
            (60, [row["name"], *row["also"]]),
            (120, [row["why"]]),
            (60, [cue for cues in lib.cue_lists(row) for cue in cues]),
            (80, row["faults"]),
        )
        for text in texts
        if not 0 < len(text) <= limit
    ]
    assert too_long == []


def test_aliases_and_faults_counted() -> None:
    assert [row["key"] for row in ROWS if len(row["also"]) > 3] == []
    assert [row["key"] for row in ROWS if len(row["faults"]) not in {1, 2}] == []


def test_cues_two_to_four_for_each_direction() -> None:
    assert [row["key"] for row in ROWS if not all(2 <= len(cues) <= 4 for cues in lib.cue_lists(row))] == []


def test_cue_tables_name_exactly_the_directions() -> None:
    tables = [row for row in ROWS if isinstance(row["cues"], dict)]
    assert [row["key"] for row in tables if set(row["cues"]) - {"all"} != set(row["directions"])] == []


def test_several_directions_have_a_cue_table() -> None:
    assert [row["key"] for row in ROWS if len(row["directions"]) > 1 and isinstance(row["cues"], list)] == []


# --- swaps


def test_swaps_lead_to_another_row() -> None:
    lost = [_swap_label(row, swap) for row, swap in SWAPS if swap["to"] not in BY_KEY or swap["to"] == row["key"]]
    assert lost == []


def test_swaps_carry_a_known_reason_once() -> None:
    assert {swap["reason"] for _, swap in SWAPS} - set(SwapReason.values) == set()
    labels = [f"{_swap_label(row, swap)} {swap.get('region', '')}" for row, swap in SWAPS]
    assert _repeated(labels) == []


def test_swaps_name_a_region_exactly_when_sparing() -> None:
    wrong = [
        _swap_label(row, swap)
        for row, swap in SWAPS
        if ("region" in swap) != (swap["reason"] == "spares") or swap.get("region", "knee") not in Region.values
    ]
    assert wrong == []


def test_sparing_swaps_take_a_loaded_region_away() -> None:
    sparing = [(row, swap) for row, swap in SWAPS if swap["reason"] == "spares"]
    wrong = [
        f"{_swap_label(row, swap)} {swap['region']}"
        for row, swap in sparing
        if swap["region"] not in row["regions"] or swap["region"] in BY_KEY[swap["to"]]["regions"]
    ]
    assert wrong == []


def test_equipment_swaps_change_what_is_needed() -> None:
    same = [
        _swap_label(row, swap)
        for row, swap in SWAPS
        if swap["reason"] == "equipment" and lib.can_do(row, lib.kinds(BY_KEY[swap["to"]]))
    ]
    assert same == []


@pytest.mark.parametrize("reason", ["easier", "harder"])
def test_easier_and_harder_never_go_both_ways(reason: str) -> None:
    steps = {(row["key"], swap["to"]) for row, swap in SWAPS if swap["reason"] == reason}
    assert sorted(step for step in steps if step[::-1] in steps) == []


def test_no_swap_is_both_easier_and_harder() -> None:
    easier = {(row["key"], swap["to"]) for row, swap in SWAPS if swap["reason"] in {"easier", "build"}}
    harder = {(row["key"], swap["to"]) for row, swap in SWAPS if swap["reason"] == "harder"}
    assert easier & harder == set()


# --- coverage


def test_taxonomy_each_row_present() -> None:
    names = {lib.slug(name) for row in ROWS for name in [row["name"], *row["also"]]}
    assert len(lib.read_taxonomy()) == 85
    assert [name for name in lib.read_taxonomy() if lib.slug(name) not in names] == []


@pytest.mark.parametrize("pattern", lib.PRIMARY_PATTERNS)
def test_primary_pattern_trainable_with_nothing_and_unsupervised(pattern: str) -> None:
    covering = [row for row in ROWS if pattern in row["patterns"]]
    assert any(row["equipment"] == [] and not row["needs_supervision"] for row in covering)


def test_rows_needing_equipment_have_a_swap_for_the_road() -> None:
    stranded = [
        row["key"]
        for row in ROWS
        if not lib.can_do(row, lib.ON_THE_ROAD)
        and not any(
            lib.can_do(BY_KEY[swap["to"]], lib.ON_THE_ROAD) for swap in row["swaps"] if swap["reason"] == "equipment"
        )
    ]
    assert stranded == []


def test_rows_needing_supervision_have_a_swap_without() -> None:
    stranded = [
        row["key"]
        for row in ROWS
        if row["needs_supervision"] and all(BY_KEY[swap["to"]]["needs_supervision"] for swap in row["swaps"])
    ]
    assert stranded == []


def test_squat_jump_covers_squat_jump_and_landing() -> None:
    assert BY_KEY["squat-jump"]["patterns"] == ["squat", "jump", "landing"]
    assert BY_KEY["squat-jump"]["equipment"] == []


# --- the safe side


def test_side_sense_only_where_one_side_works() -> None:
    both_sides = [row for row in ROWS if row["laterality"] != "unilateral"]
    assert [row["key"] for row in both_sides if set(row["regions"].values()) != {"both"}] == []


def test_bars_and_drop_jumps_need_supervision() -> None:
    bars = [row for row in ROWS if row["load"] == "bar_total" or "drop jump" in row["name"].lower()]
    assert [row["key"] for row in bars if not row["needs_supervision"]] == []


def test_partner_held_work_needs_supervision() -> None:
    assert [row["key"] for row in ROWS if row["spotting"] == "partner" and not row["needs_supervision"]] == []


def test_spotted_lifts_need_supervision() -> None:
    assert [r["key"] for r in ROWS if r["spotting"] in {"head", "safety_arms"} and not r["needs_supervision"]] == []


def test_running_and_jumping_count_as_impact() -> None:
    fast = [row for row in ROWS if {"jump", "sprint", "agility"} & set(row["patterns"])]
    assert [row["key"] for row in fast if "impact" not in row["demands"]] == []


def test_impact_loads_legs_or_arms_to_the_end_of_the_chain() -> None:
    impact = [row for row in ROWS if "impact" in row["demands"]]
    chains = ({"knee", "ankle", "lower_leg", "foot"}, {"wrist_hand", "elbow", "shoulder"})
    assert [row["key"] for row in impact if not any(chain <= set(row["regions"]) for chain in chains)] == []


@pytest.mark.parametrize(("demand", "region"), [("overhead", "shoulder"), ("grip", "wrist_hand")])
def test_demand_loads_its_joint(demand: str, region: str) -> None:
    assert [row["key"] for row in ROWS if demand in row["demands"] and region not in row["regions"]] == []


@pytest.mark.parametrize("meaning", LOADABLE)
def test_load_meaning_fits_the_equipment(meaning: str) -> None:
    loaded = [row for row in ROWS if row["load"] == meaning]
    assert [row["key"] for row in loaded if not lib.kinds(row) & LOADABLE[meaning]] == []
