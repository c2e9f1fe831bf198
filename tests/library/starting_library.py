"""Reads the starting library as it lies on disk, before any import into the database."""

from __future__ import annotations

import csv
import re
import tomllib
from pathlib import Path
from typing import Any

from coachhub.library.models_exercise import ALWAYS_THERE, Equipment

Row = dict[str, Any]

FOLDER = Path(__file__).resolve().parents[2] / "fixtures" / "library"
TAXONOMY = Path(__file__).parent / "data" / "taxonomy_rows.csv"

FIELDS = {
    "key",
    "name",
    "also",
    "segment",
    "patterns",
    "directions",
    "laterality",
    "measure",
    "load",
    "equipment",
    "regions",
    "demands",
    "why",
    "cues",
    "faults",
    "spotting",
    "needs_supervision",
    "swaps",
}
MAY_BE_MISSING = {"family", "family_rank"}
DEMANDS = {"impact", "overhead", "grip", "deep_range"}
PRIMARY_PATTERNS = ("hinge", "squat", "lunge", "push", "pull")

ON_THE_ROAD: set[str] = {Equipment.MINI_BAND, *ALWAYS_THERE}


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


def can_do(row: Row, available: set[str]) -> bool:
    return all(available & set(group) for group in row["equipment"])


def cue_lists(row: Row) -> list[list[str]]:
    """What the athlete reads, once per direction where the cues differ by direction."""
    cues = row["cues"]
    if isinstance(cues, list):
        return [cues]
    common: list[str] = cues.get("all", [])
    return [common + own for direction, own in cues.items() if direction != "all"]
