"""The phases of a season, and how many hard sets each asks of a pattern in a week."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal

from coachhub.coaching.coverage import PRIMARY

PhaseCode = Literal["general", "strength", "power", "in_season", "deload"]
PHASES: Final[tuple[PhaseCode, ...]] = ("general", "strength", "power", "in_season", "deload")


@dataclass(frozen=True, slots=True)
class Target:
    """Hard sets of one pattern in one week, from and to."""

    low: int
    high: int


@dataclass(frozen=True, slots=True)
class Phase:
    """`targets` by primary pattern; a pattern without one is asked nothing."""

    code: PhaseCode
    targets: Mapping[str, Target]


def _phase(code: PhaseCode, legs: tuple[int, int], arms: tuple[int, int]) -> Phase:
    by_pattern = {"push": arms, "pull": arms}
    return Phase(code, {pattern: Target(*by_pattern.get(pattern, legs)) for pattern in PRIMARY})


# Hard sets a week (common practice): most while a base is laid, fewer beside matches, half of that to recover.
USUAL: Final[Mapping[PhaseCode, Phase]] = {
    "general": _phase("general", (4, 12), (6, 16)),
    "strength": _phase("strength", (4, 10), (5, 14)),
    "power": _phase("power", (3, 8), (4, 10)),
    "in_season": _phase("in_season", (2, 8), (3, 10)),
    "deload": _phase("deload", (1, 5), (2, 6)),
}
