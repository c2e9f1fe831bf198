"""Writes small starting libraries for tests: a whole row, with what a test changes of it."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

ROW: dict[str, Any] = {
    "key": "goblet-squat",
    "name": "Goblet squat",
    "also": ["Cup squat"],
    "segment": "strength",
    "patterns": ["squat"],
    "directions": ["vertical"],
    "laterality": "bilateral",
    "measure": "reps",
    "load": "single",
    "equipment": [["dumbbell", "kettlebell"]],
    "regions": {"knee": "both", "hip": "working"},
    "demands": ["deep_range"],
    "why": "Squat depth with a weight in front.",
    "cues": ["Weight close", "Elbows inside the knees"],
    "faults": ["Rounding at the bottom"],
    "spotting": "none",
    "needs_supervision": False,
    "swaps": [],
}


def toml(value: object) -> str:
    """Strings, numbers, flags, lists and inline tables; None is left out by the caller."""
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key} = {toml(inner)}" for key, inner in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(toml(inner) for inner in value) + "]"
    return json.dumps(value, ensure_ascii=False)


def write_rows(folder: Path, *changes: dict[str, Any], file: str = "rows.toml") -> Path:
    """One row a change, in `folder`/`file`; a field changed to None is left out."""
    tables = [
        "[[exercise]]\n"
        + "".join(f"{key} = {toml(value)}\n" for key, value in (ROW | change).items() if value is not None)
        for change in changes
    ]
    (folder / file).write_text("\n".join(tables), encoding="utf-8")
    return folder
