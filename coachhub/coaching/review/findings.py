"""What a check remarks on, as data; put into words only when shown."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

Severity = Literal["note", "warning"]


@dataclass(frozen=True, slots=True)
class Where:
    """A line, a block or a day: its key, and the label that people read."""

    key: str
    label: str


@dataclass(frozen=True, slots=True)
class Finding:
    """`found` against `limit`, in the unit of the rule; `suggestion` is a code too.

    `about` says what it speaks of. It is made of keys, never of figures, so that what was accepted stays quiet while
    only the figures move.
    """

    code: str
    severity: Severity
    about: str = ""
    where: tuple[Where, ...] = ()
    params: tuple[tuple[str, str], ...] = ()
    found: str = ""
    limit: str = ""
    suggestion: str = ""

    @property
    def key(self) -> str:
        return f"{self.code}:{self.about}"

    @property
    def labels(self) -> tuple[str, ...]:
        return tuple(one.label for one in self.where)


def params(**named: object) -> tuple[tuple[str, str], ...]:
    """Kept as text, in the order given."""
    return tuple([(name, str(value)) for name, value in named.items()])


def joined(keys: Iterable[object]) -> str:
    return "+".join(map(str, keys))


def warnings_first(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Warnings before notes, else in the order in which they were found."""
    return tuple(sorted(findings, key=lambda one: one.severity != "warning"))


def open_ones(findings: Iterable[Finding], accepted: Sequence[str] | frozenset[str]) -> tuple[Finding, ...]:
    """Those whose key nobody has accepted."""
    return tuple(one for one in findings if one.key not in accepted)
