"""Reads the starting library as it lies on disk, without Django."""

from __future__ import annotations

import csv
import re
import tomllib
from pathlib import Path
from typing import Any

Row = dict[str, Any]

FOLDER = Path(__file__).resolve().parents[2] / "fixtures" / "library"
TAXONOMY = Path(__file__).parent / "data" / "taxonomy_rows.csv"

FIELDS = frozenset(
    "key name also segment patterns directions laterality measure load equipment regions demands why cues faults"
    " spotting needs_supervision swaps".split()
)
SEGMENTS = frozenset("warm_up activation athleticism strength conditioning cool_down".split())
PATTERNS = frozenset(
    "hinge squat lunge push pull carry trunk jump landing sprint agility rotation locomotion mobility hip shoulder"
    " ankle knee_flexion recovery".split()
)
PRIMARY_PATTERNS = ("hinge", "squat", "lunge", "push", "pull")
DIRECTIONS = frozenset(
    "forward backward lateral diagonal crossover vertical horizontal incline rotational in_place".split()
)
LATERALITIES = frozenset("bilateral unilateral alternating".split())
MEASURES = frozenset("reps time distance contacts height".split())
LOADS = frozenset("bar_total per_hand single added assistance machine none".split())
EQUIPMENT = frozenset(
    "barbell plates rack safety_arms bench incline_bench hex_bar landmine dumbbell kettlebell cable machine mini_band"
    " long_band anchor box low_box medicine_ball slam_ball cones agility_ladder pull_up_bar suspension sled wall step"
    " partner pad stick mat slider".split()
)
REGIONS = frozenset(
    "neck shoulder elbow wrist_hand chest upper_back low_back abdomen hip groin thigh_front thigh_back knee lower_leg"
    " ankle foot".split()
)
SIDE_SENSES = frozenset("both working other".split())
DEMANDS = frozenset("impact overhead grip deep_range".split())
SPOTTING = frozenset("none head safety_arms clear_space wrists partner".split())
REASONS = frozenset("equipment easier harder preference build spares".split())

# What a squad on the road has: its mini-bands, and the walls and team-mates found everywhere.
ON_THE_ROAD = frozenset({"mini_band", "wall", "partner"})


def read_library() -> list[Row]:
    rows: list[Row] = []
    for path in sorted(FOLDER.glob("*.toml")):
        rows.extend(tomllib.loads(path.read_text(encoding="utf-8"))["exercise"])
    return rows


def read_taxonomy() -> list[str]:
    """Names of the movement taxonomy. Source: Movement taxonomy, own compilation; common practice."""
    with TAXONOMY.open(encoding="utf-8", newline="") as lines:
        return [line["name"] for line in csv.DictReader(lines)]


def slug(name: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")


def kinds(row: Row) -> set[str]:
    return {kind for group in row["equipment"] for kind in group}


def can_do(row: Row, available: frozenset[str]) -> bool:
    return all(available & set(group) for group in row["equipment"])


def cue_lists(row: Row) -> list[list[str]]:
    """What the athlete reads, once per direction where the cues differ by direction."""
    cues = row["cues"]
    if isinstance(cues, list):
        return [cues]
    common: list[str] = cues.get("all", [])
    return [common + own for direction, own in cues.items() if direction != "all"]
