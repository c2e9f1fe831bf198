"""Reads the starting library's files and checks every row before anything is written."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass, fields
from pathlib import Path
from typing import Any, Final

from django.db import models

from coachhub.base.models import Pattern, Region, SegmentKind
from coachhub.base.text import fold
from coachhub.library.content import DEMANDS, FAULTS_BETWEEN, Content, SwapContent, head_to_foot
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

COMMON: Final = "all"  # cues for every direction
FAULTS_LENGTH: Final = 300
FAMILY_LENGTH: Final = 40

CODES: Final[dict[str, type[models.TextChoices]]] = {
    "segment": SegmentKind,
    "laterality": Laterality,
    "measure": Measure,
    "load": LoadMeaning,
    "spotting": Spotting,
}
TEXTS: Final = {"name": 60, "why": 160}
TYPES: Final[dict[str, type | tuple[type, ...]]] = {
    **dict.fromkeys(("key", *TEXTS, *CODES), str),
    **dict.fromkeys(("also", "patterns", "directions", "equipment", "demands", "faults", "swaps"), list),
    "regions": dict,
    "cues": (list, dict),
    "needs_supervision": bool,
    "family": str,
    "family_rank": int,
}
OPTIONAL: Final[dict[str, Any]] = {
    "also": [],
    "regions": {},
    "demands": [],
    "swaps": [],
    "family": "",
    "family_rank": 0,
}


class LibraryError(Exception):
    """A mistake in the starting library: the file, the row's key (empty if it has none), and what is wrong."""

    def __init__(self, file: str, key: str, sentence: str) -> None:
        super().__init__(": ".join(part for part in (file, key, sentence) if part))
        self.file, self.key, self.sentence = file, key, sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class StartingExercise(Content):
    """One row as the file has it; its swaps name the keys of other rows."""

    file: str
    key: str

    @property
    def text(self) -> Content:
        """The row without where it stands: what its digest names, and what is kept."""
        return Content(**{field.name: getattr(self, field.name) for field in fields(Content)})


def read_starting_library(folder: Path) -> list[StartingExercise]:
    """Every row of `folder`'s *.toml, files and rows in order; LibraryError for the first mistake."""
    rows = [row for path in sorted(folder.glob("*.toml")) for row in _read_file(path)]
    if not rows:
        raise LibraryError(folder.name, "", "no .toml file in this folder holds an exercise.")
    _check_together(rows)
    return rows


def _read_file(path: Path) -> Iterator[StartingExercise]:
    try:
        content = tomllib.loads(path.read_text(encoding="utf-8"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise LibraryError(path.name, "", f"the file cannot be read: {error}.") from error
    exercises = content.get("exercise", [])
    if set(content) - {"exercise"} or not isinstance(exercises, list):
        raise LibraryError(path.name, "", "the file holds [[exercise]] tables and nothing else.")
    for raw in exercises:
        yield _Row(path.name, raw).checked()


class _Row:
    """One raw table on its way to a checked row; every complaint names the file and the key."""

    def __init__(self, file: str, raw: dict[str, Any]) -> None:
        self.file, self.key = file, str(raw.get("key", ""))
        self.raw: dict[str, Any] = OPTIONAL | raw

    def checked(self) -> StartingExercise:
        self._check_fields()
        texts = {field: self._text(self.raw[field], field, limit) for field, limit in TEXTS.items()}
        codes = {field: self._code(self.raw[field], field, choices.values) for field, choices in CODES.items()}
        directions = self._codes("directions", Direction.values)
        return StartingExercise(
            file=self.file,
            key=self.key,
            also=self._texts("also", self.raw["also"], 60),
            patterns=self._codes("patterns", Pattern.values),
            directions=directions,
            equipment=self._equipment(),
            regions=self._regions(),
            demands=frozenset(self._codes("demands", DEMANDS, needed=False)),
            cues=self._cues(directions),
            faults=self._faults(),
            needs_supervision=self.raw["needs_supervision"],
            swaps=tuple(self._swap(raw) for raw in self.raw["swaps"]),
            family=self._family(),
            family_rank=self.raw["family_rank"],
            **texts,
            **codes,
        )

    def _fail(self, sentence: str) -> LibraryError:
        return LibraryError(self.file, self.key, sentence)

    def _check_fields(self) -> None:
        for field in TYPES:
            if field not in self.raw:
                raise self._fail(f"“{field}” is missing.")
        for field, value in self.raw.items():
            if field not in TYPES:
                raise self._fail(f"“{field}” is not a field of an exercise.")
            if not isinstance(value, TYPES[field]):
                raise self._fail(f"“{field}” has a value of the wrong type.")
        if not re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", self.key) or len(self.key) > 80:
            raise self._fail("a key has small letters, digits and single hyphens, and at most 80 characters.")

    def _text(self, value: object, field: str, limit: int) -> str:
        if not isinstance(value, str) or not value.strip() or value != value.strip():
            raise self._fail(f"“{field}” must be words without blanks around them.")
        if len(value) > limit:
            raise self._fail(f"“{value}” in “{field}” is longer than {limit} characters.")
        return value

    def _texts(self, field: str, values: list[object], limit: int) -> tuple[str, ...]:
        return self._once(field, tuple(self._text(value, field, limit) for value in values))

    def _code(self, value: object, field: str, allowed: tuple[str, ...] | list[str]) -> str:
        if not isinstance(value, str) or value not in allowed:
            raise self._fail(f"“{value}” is not known in “{field}”; known are {', '.join(allowed)}.")
        return value

    def _codes(self, field: str, allowed: tuple[str, ...] | list[str], *, needed: bool = True) -> tuple[str, ...]:
        if needed and not self.raw[field]:
            raise self._fail(f"“{field}” must not be empty.")
        return self._once(field, tuple(self._code(value, field, allowed) for value in self.raw[field]))

    def _once(self, field: str, values: tuple[str, ...]) -> tuple[str, ...]:
        for value in values:
            if values.count(value) > 1:
                raise self._fail(f"“{value}” appears twice in “{field}”.")
        return values

    def _family(self) -> str:
        family, rank = self.raw["family"], self.raw["family_rank"]
        if bool(family) != (rank > 0):
            raise self._fail("“family” and “family_rank” (1 for the easiest) go together.")
        if family != family.lower():
            raise self._fail("a family is written in small letters.")
        return self._text(family, "family", FAMILY_LENGTH) if family else ""

    def _equipment(self) -> tuple[tuple[str, ...], ...]:
        groups: list[tuple[str, ...]] = []
        for group in self.raw["equipment"]:
            if not isinstance(group, list) or not group:
                raise self._fail("“equipment” is a list of groups, each a list with at least one kind.")
            groups.append(self._once("equipment", tuple(self._code(k, "equipment", Equipment.values) for k in group)))
        return tuple(groups)

    def _regions(self) -> tuple[tuple[str, str], ...]:
        return head_to_foot(
            [
                (self._code(region, "regions", Region.values), self._code(sense, "regions", SideSense.values))
                for region, sense in self.raw["regions"].items()
            ]
        )

    def _cues(self, directions: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
        cues = self.raw["cues"] if isinstance(self.raw["cues"], dict) else {COMMON: self.raw["cues"]}
        pairs: list[tuple[str, str]] = []
        for direction, texts in cues.items():
            self._code(direction, "cues", (COMMON, *directions))
            if not isinstance(texts, list):
                raise self._fail(f"the cues for “{direction}” must be a list.")
            pairs += [("" if direction == COMMON else direction, text) for text in self._texts("cues", texts, 80)]
        return tuple(pairs)

    def _faults(self) -> tuple[str, ...]:
        faults = self._texts("faults", self.raw["faults"], FAULTS_LENGTH)
        if len(FAULTS_BETWEEN.join(faults)) > FAULTS_LENGTH or any(";" in fault for fault in faults):
            raise self._fail(f"“faults” take {FAULTS_LENGTH} characters in all, and no semicolon.")
        return faults

    def _swap(self, raw: object) -> SwapContent:
        if not isinstance(raw, dict) or not {"to", "reason"} <= set(raw) <= {"to", "reason", "region"}:
            raise self._fail("a swap has “to”, “reason” and, where it spares one, “region”.")
        reason = self._code(raw["reason"], "reason of a swap", SwapReason.values)
        if (reason == SwapReason.SPARES) != ("region" in raw):
            raise self._fail(f"the swap to “{raw['to']}” has a region exactly when its reason is “spares”.")
        region = self._code(raw["region"], "region of a swap", Region.values) if "region" in raw else ""
        return SwapContent(str(raw["to"]), reason, region)


def _check_together(rows: list[StartingExercise]) -> None:
    keys: set[str] = set()
    names: set[str] = set()
    for row in rows:
        if row.key in keys:
            raise LibraryError(row.file, row.key, "this key is used twice.")
        if fold(row.name) in names:
            raise LibraryError(row.file, row.key, f"the name “{row.name}” is used twice.")
        keys.add(row.key)
        names.add(fold(row.name))
    places: set[tuple[str, int]] = set()
    for row in rows:
        if row.family and (row.family, row.family_rank) in places:
            raise LibraryError(row.file, row.key, f"place {row.family_rank} in “{row.family}” is used twice.")
        places.add((row.family, row.family_rank))
        _check_swaps(row, keys)


def _check_swaps(row: StartingExercise, keys: set[str]) -> None:
    for swap in row.swaps:
        if swap.to not in keys:
            raise LibraryError(row.file, row.key, f"the swap to “{swap.to}” leads to no exercise.")
        if swap.to == row.key:
            raise LibraryError(row.file, row.key, "an exercise cannot be swapped for itself.")
        if row.swaps.count(swap) > 1:
            raise LibraryError(row.file, row.key, f"the swap to “{swap.to}” appears twice for the same reason.")
