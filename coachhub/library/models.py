"""Exercises with what they load and need; swaps with their reason; venues with what stands there."""

from __future__ import annotations

from coachhub.library.models_exercise import (
    ALWAYS_THERE,
    Direction,
    Equipment,
    EquipmentNeed,
    Exercise,
    ExerciseAlias,
    ExerciseCue,
    ExercisePattern,
    ExerciseRegion,
    Laterality,
    LoadMeaning,
    Measure,
    SideSense,
    Spotting,
    Swap,
    SwapReason,
)
from coachhub.library.models_media import ExerciseFile, FileKind
from coachhub.library.models_venue import BarKind, StockBar, StockItem, StockPlate, StockWeight, Venue, WeightKind

__all__ = [
    "ALWAYS_THERE",
    "BarKind",
    "Direction",
    "Equipment",
    "EquipmentNeed",
    "Exercise",
    "ExerciseAlias",
    "ExerciseCue",
    "ExerciseFile",
    "ExercisePattern",
    "ExerciseRegion",
    "FileKind",
    "Laterality",
    "LoadMeaning",
    "Measure",
    "SideSense",
    "Spotting",
    "StockBar",
    "StockItem",
    "StockPlate",
    "StockWeight",
    "Swap",
    "SwapReason",
    "Venue",
    "WeightKind",
]
