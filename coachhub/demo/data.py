"""The invented club as data: fixtures/demo/*.toml, read into typed values."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from datetime import time
from functools import lru_cache
from typing import Any, Final

from django.conf import settings

SESSIONS: Final = 24
"""Sessions that lie behind a squad: two a week for twelve weeks."""
SESSIONS_A_WEEK: Final = 2


@dataclass(frozen=True, slots=True)
class Scale:
    """How much of the story is told: which squads, and the first session of which sets are written."""

    squads: tuple[str, ...]
    first: int


@dataclass(frozen=True, slots=True)
class Person:
    """One athlete, and how strong she is on the first day against the kilograms in lifts.toml."""

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
    contact: str = ""
    health_alert: str = ""
    has_phone: bool = False
    no_consent: tuple[str, ...] = ()
    missed: tuple[int, ...] = ()
    late: tuple[int, ...] = ()
    corrected: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class SquadStory:
    """A squad and what happened to it; the rows of health as tables of its file. Numbers count its sessions from 0."""

    key: str
    name: str
    note: str
    coach: str
    plan: str
    plan_name: str
    venue: str
    weekdays: frozenset[int]
    starts_at: time
    minutes: int
    trainings: dict[str, Any]
    codes: tuple[str, ...]
    on_the_road: tuple[int, ...]
    ahead: dict[str, Any]
    prints_cards: bool
    has_rack_holes: bool
    people: tuple[Person, ...]
    availability: list[dict[str, Any]]
    restrictions: list[dict[str, Any]]
    red_flags: list[dict[str, Any]]
    pains: list[dict[str, Any]]
    notes: list[dict[str, Any]]
    wishes: list[dict[str, Any]]
    own_work: list[dict[str, Any]]
    levels: list[dict[str, Any]]
    today: dict[str, tuple[int, ...]]
    today_notes: dict[str, str]
    today_pains: list[dict[str, Any]]


@dataclass(frozen=True, slots=True)
class Lifts:
    """`kg`: one repetition at the most for strength 1.0, by the exercise's key."""

    kg: dict[str, float]
    main: tuple[str, ...]
    renewed_after: tuple[int, ...]


@lru_cache
def read(name: str) -> dict[str, Any]:
    path = settings.BASE_DIR / "fixtures" / "demo" / f"{name}.toml"
    with path.open("rb") as file:
        return tomllib.load(file)


def full() -> Scale:
    """All squads with their twelve weeks."""
    return Scale(tuple(read("club")["squads"]), 0)


def small() -> Scale:
    """The Under-18 with a week behind them: enough to look at every page, in a second or two."""
    return Scale(("under_18",), SESSIONS - SESSIONS_A_WEEK)


def lifts() -> Lifts:
    table = read("lifts")
    return Lifts(table["kg"], tuple(table["bests"]["main"]), tuple(table["bests"]["renewed_after"]))


def squad_story(key: str) -> SquadStory:
    table = read(key)
    return SquadStory(
        key=key,
        name=table["name"],
        note=table["note"],
        coach=table["coach"],
        plan=table["plan"],
        plan_name=table["plan_name"],
        venue=table["venue"],
        weekdays=frozenset(table["weekdays"]),
        starts_at=time.fromisoformat(table["starts_at"]),
        minutes=table["minutes"],
        trainings=table["trainings"],
        codes=tuple(table["codes"]),
        on_the_road=tuple(table.get("on_the_road", ())),
        ahead=table.get("ahead", {}),
        prints_cards=table.get("prints_cards", False),
        has_rack_holes=table.get("has_rack_holes", False),
        people=tuple(_person(row) for row in table["athlete"]),
        availability=table.get("availability", []),
        restrictions=table.get("restriction", []),
        red_flags=table.get("red_flag", []),
        pains=table.get("pain", []),
        notes=table.get("note_to_coach", []),
        wishes=table.get("wish", []),
        own_work=table.get("own_work", []),
        levels=table.get("level", []),
        today={row["athlete"]: tuple(row["rounds"]) for row in table["today"]},
        today_notes={row["athlete"]: row["note"] for row in table["today"] if "note" in row},
        today_pains=table.get("today_pain", []),
    )


def _person(table: dict[str, Any]) -> Person:
    values: dict[str, Any] = {key: tuple(value) if isinstance(value, list) else value for key, value in table.items()}
    return Person(**values)
