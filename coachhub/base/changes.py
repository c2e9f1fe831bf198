"""What an import would do, row by row, before anything is written."""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from django.db.models import TextChoices
from django.utils.translation import gettext_lazy as _

Wish = TypeVar("Wish")


class RowState(TextChoices):
    """In the order in which they want to be looked at."""

    ERROR = "error", _("error")
    NEW = "new", _("new")
    UPDATED = "updated", _("updated")
    UNCHANGED = "unchanged", _("unchanged")


@dataclass(frozen=True, slots=True)
class Change:
    """`before` is empty where nothing stood."""

    label: str
    before: str
    after: str


@dataclass(frozen=True)
class Outcome(Generic[Wish]):
    """`name`: whom or what the row is about. `wish` is what the row asks for, None where it cannot be read.

    `doubt`: what must be said to be right before the row is written; empty for nearly all.
    """

    number: int
    name: str
    wish: Wish | None
    changes: tuple[Change, ...] = ()
    errors: tuple[str, ...] = ()
    is_new: bool = False
    doubt: str = ""

    @property
    def state(self) -> RowState:
        if self.errors or self.wish is None:
            return RowState.ERROR
        if self.is_new:
            return RowState.NEW
        return RowState.UPDATED if self.changes else RowState.UNCHANGED


def count_states(outcomes: Iterable[Outcome[Wish]]) -> dict[str, int]:
    counts = Counter(outcome.state for outcome in outcomes)
    return {state.value: counts[state] for state in RowState}


def without_doubted(outcomes: Iterable[Outcome[Wish]], sure: Collection[str]) -> list[Outcome[Wish]]:
    """Without rows in doubt, except those whose number somebody has ticked."""
    return [outcome for outcome in outcomes if not outcome.doubt or str(outcome.number) in sure]


def to_write(outcomes: Iterable[Outcome[Wish]]) -> list[Wish]:
    """What the rows ask for that is not there yet; nothing of rows in error."""
    return [outcome.wish for outcome in outcomes if outcome.wish and (outcome.is_new or outcome.changes)]


def digest(outcomes: Sequence[Outcome[Wish]]) -> str:
    """The same for the same changes: what was looked at is what is written."""
    return hashlib.sha256(repr(outcomes).encode()).hexdigest()
