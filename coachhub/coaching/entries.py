"""Which of the facts written on a card count. Order never comes from a clock.

An entry that another one supersedes does not count, in whatever order the two arrive. Of several that remain for one
slot (line, round, side) the highest (seq, uuid) counts, and the others are shown beside it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, Generic, TypeVar, cast
from uuid import UUID

Slot = tuple[str, int, str]


# An entry, whatever holds it, with: uuid, supersedes_uuid, seq, kind, line_key, round, side.
F = TypeVar("F")


@dataclass(frozen=True, slots=True)
class Counted(Generic[F]):
    """The fact that counts for a slot, and those that stand against it."""

    fact: F
    rivals: tuple[F, ...] = ()

    @property
    def is_contested(self) -> bool:
        return bool(self.rivals)


def counting(facts: Iterable[F]) -> dict[Slot, Counted[F]]:
    """Return what counts per slot, taken-back slots left out; the same for any order and any repeats of the facts."""
    known: dict[UUID, Any] = {cast(Any, fact).uuid: fact for fact in facts}
    superseded = {fact.supersedes_uuid for fact in known.values() if fact.supersedes_uuid is not None}
    slots: dict[Slot, list[Any]] = {}
    for fact in known.values():
        if fact.uuid not in superseded:
            slots.setdefault((fact.line_key, fact.round, fact.side), []).append(fact)
    counted: dict[Slot, Counted[F]] = {}
    for slot in sorted(slots):
        first, *rest = sorted(slots[slot], key=lambda fact: (fact.seq, fact.uuid), reverse=True)
        if first.kind != "void":
            counted[slot] = Counted(first, tuple(fact for fact in rest if fact.kind != "void"))
    return counted


def next_seq(facts: Iterable[Any]) -> int:
    """Return 1 + the highest seen on the card (a Lamport clock)."""
    return 1 + max((fact.seq for fact in facts), default=0)
