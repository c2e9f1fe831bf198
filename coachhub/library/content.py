"""All that an exercise says, in one value: alike from the starting library, from a form and from the rows."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from itertools import groupby
from typing import Any, Final

from coachhub.base.models import Region
from coachhub.library.models import Exercise

DEMANDS: Final = ("impact", "overhead", "grip", "deep_range")
FAULTS_BETWEEN: Final = "; "


@dataclass(frozen=True, slots=True)
class SwapContent:
    """`to` is the other exercise's `ref`."""

    to: str
    reason: str
    region: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Content:
    """`cues`: pairs of a direction ("" for all) and the text. `regions`: pairs with the side sense, head to foot.

    `family_rank`: the place from easiest (1) to hardest; 0 without a family.
    """

    name: str
    also: tuple[str, ...]
    segment: str
    patterns: tuple[str, ...]
    directions: tuple[str, ...]
    laterality: str
    measure: str
    load: str
    equipment: tuple[tuple[str, ...], ...]
    regions: tuple[tuple[str, str], ...]
    demands: frozenset[str]
    why: str
    cues: tuple[tuple[str, str], ...]
    faults: tuple[str, ...]
    spotting: str
    needs_supervision: bool
    swaps: tuple[SwapContent, ...]
    family: str = ""
    family_rank: int = 0

    @property
    def plain(self) -> dict[str, Any]:
        """As lists and texts, for keeping as JSON."""
        return asdict(self) | {"demands": sorted(self.demands)}

    @property
    def digest(self) -> str:
        """Names the text: equal digests, equal text."""
        return hashlib.sha256(json.dumps(self.plain, sort_keys=True).encode()).hexdigest()


def content_from(plain: dict[str, Any]) -> Content:
    """Back from what `Content.plain` gave, through JSON or not."""
    swaps = tuple(SwapContent(**swap) for swap in plain["swaps"])
    rest = {name: _tuples(value) for name, value in plain.items()}
    return Content(**rest | {"swaps": swaps, "demands": frozenset(plain["demands"])})


def content_of(exercise: Exercise) -> Content:
    """What the rows say; costs no query where `queries.whole_exercises` loaded them."""
    needs = groupby(exercise.needs.all(), lambda need: need.group)
    return Content(
        name=exercise.name,
        also=tuple(alias.name for alias in exercise.aliases.all()),
        segment=exercise.segment,
        patterns=tuple(row.pattern for row in exercise.patterns.all()),
        directions=tuple(exercise.directions),
        laterality=exercise.laterality,
        measure=exercise.measure,
        load=exercise.load_meaning,
        equipment=tuple(tuple(need.kind for need in group) for _group, group in needs),
        regions=head_to_foot((row.region, row.side_sense) for row in exercise.regions.all()),
        demands=frozenset(demand for demand in DEMANDS if getattr(exercise, f"is_{demand}")),
        why=exercise.why,
        cues=tuple((cue.direction, cue.text) for cue in exercise.cues.all()),
        faults=tuple(fault for fault in exercise.faults.split(FAULTS_BETWEEN) if fault),
        spotting=exercise.spotting,
        needs_supervision=exercise.needs_supervision,
        family=exercise.family,
        family_rank=exercise.family_rank,
        swaps=tuple(SwapContent(swap.to.ref, swap.reason, swap.region) for swap in exercise.swaps.all()),
    )


def head_to_foot(regions: Iterable[tuple[str, str]]) -> tuple[tuple[str, str], ...]:
    return tuple(sorted(regions, key=lambda pair: Region.values.index(pair[0])))


def _tuples(value: Any) -> Any:
    return tuple(_tuples(inner) for inner in value) if isinstance(value, list | tuple) else value
