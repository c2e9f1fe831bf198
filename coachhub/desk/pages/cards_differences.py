"""Before cards are renewed: what would change for whom."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from coachhub.base.actor import Actor
from coachhub.cards.models import Assignment
from coachhub.cards.queries import CardChange, changes_of
from coachhub.cards.words_change import block_change_texts, change_texts, change_title
from coachhub.desk.pages.cards_assignment import find_assignment, may_change
from coachhub.desk.pages.writing import labelled

MOST_BUT: Final = 3


@dataclass(frozen=True, slots=True)
class ChangeRow:
    title: str
    texts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class AthleteChanges:
    card_id: int
    name: str
    rows: tuple[ChangeRow, ...]


@dataclass(frozen=True, slots=True)
class SharedChange:
    """`but`: the few whom it does not concern, by name."""

    title: str
    text: str
    but: str


@dataclass(frozen=True, slots=True)
class DifferencesPage:
    """`shared`: what is the same on nearly every card stands once; the athletes have what is left."""

    row: Assignment
    shared: tuple[SharedChange, ...]
    athletes: tuple[AthleteChanges, ...]
    may_edit: bool

    @classmethod
    def of(cls, actor: Actor, pk: int) -> DifferencesPage:
        row = find_assignment(actor, pk)
        whole = [AthleteChanges(one.card_id, one.athlete_name, rows_of(one)) for one in changes_of(actor, row)]
        shared = shared_changes(whole)
        return cls(row, shared, tuple(without(one, shared) for one in whole), may_change(actor, row))


def rows_of(change: CardChange) -> tuple[ChangeRow, ...]:
    blocks = (
        ChangeRow(labelled(one.after.label), block_change_texts(one)) for one in change.blocks if one.after is not None
    )
    lines = (ChangeRow(change_title(one), change_texts(one, change.athlete_unit)) for one in change.lines)
    return (*blocks, *lines)


def shared_changes(cards: Sequence[AthleteChanges]) -> tuple[SharedChange, ...]:
    """What all but a few have in common: up to three, and up to a quarter. Nothing where there is only one card."""
    if len(cards) < 2:
        return ()
    said = [{(row.title, text) for row in card.rows for text in row.texts} for card in cards]
    found = []
    for title, text in dict.fromkeys((row.title, text) for card in cards for row in card.rows for text in row.texts):
        missing = [card.name for card, own in zip(cards, said, strict=True) if (title, text) not in own]
        if len(missing) <= min(MOST_BUT, len(cards) // 4):
            found.append(SharedChange(title, text, ", ".join(missing)))
    return tuple(found)


def without(card: AthleteChanges, shared: Sequence[SharedChange]) -> AthleteChanges:
    told = {(one.title, one.text) for one in shared}
    kept = (
        ChangeRow(row.title, tuple(text for text in row.texts if (row.title, text) not in told)) for row in card.rows
    )
    return replace(card, rows=tuple(row for row in kept if row.texts))
