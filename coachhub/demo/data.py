"""The invented club as data: fixtures/demo/*.toml, read into typed values."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Final

from django.conf import settings

SESSIONS: Final = 8
"""Sessions that lie behind the squad: two a week for four weeks."""


@dataclass(frozen=True, slots=True)
class Person:
    """One athlete, and how strong she is against the kilograms in history.toml."""

    name: tuple[str, str]
    born: tuple[int, int]
    strength: float
    bests: str
    position: str = ""
    dominant_side: str = ""
    level: str = "novice"
    is_rir_taught: bool = False
    unit: str = "kg"
    guardian: tuple[str, str] | None = None
    health_alert: str = ""
    has_phone: bool = False
    missed: tuple[int, ...] = ()
    corrected: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Story:
    """What happened: `lifts` per exercise key, the rest as tables of history.toml."""

    seed: int
    lifts: dict[str, float]
    main_lifts: tuple[str, ...]
    bests_renewed_after: tuple[int, ...]
    availability: list[dict[str, Any]]
    restrictions: list[dict[str, Any]]
    pains: list[dict[str, Any]]
    today: dict[str, tuple[int, ...]]
    today_pain: dict[str, Any]
    code_names: tuple[str, ...]


@lru_cache
def read(name: str) -> dict[str, Any]:
    path = settings.BASE_DIR / "fixtures" / "demo" / f"{name}.toml"
    with path.open("rb") as file:
        return tomllib.load(file)


def people() -> list[Person]:
    return [_person(table) for table in read("people")["athlete"]]


def _person(table: dict[str, Any]) -> Person:
    values: dict[str, Any] = {key: tuple(value) if isinstance(value, list) else value for key, value in table.items()}
    return Person(**values)


def story() -> Story:
    table = read("history")
    return Story(
        seed=table["seed"],
        lifts=table["lifts"],
        main_lifts=tuple(table["bests"]["main"]),
        bests_renewed_after=tuple(table["bests"]["renewed_after"]),
        availability=table["availability"],
        restrictions=table["restriction"],
        pains=table["pain"],
        today={row["athlete"]: tuple(row["rounds"]) for row in table["today"]},
        today_pain=table["today_pain"],
        code_names=tuple(table["codes"]["athletes"]),
    )
