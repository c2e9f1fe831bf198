"""An athlete's cards."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.cards import words
from coachhub.cards.models import Card
from coachhub.cards.queries import can_do_instead
from coachhub.cards.queries.listing import coming_cards, past_cards
from coachhub.insight.queries import efforts_of
from coachhub.people.models import RedFlag


@dataclass(frozen=True, slots=True)
class CardRow:
    pk: int
    name: str
    on_date: date
    venue: str
    is_begun: bool

    @classmethod
    def of(cls, card: Card) -> CardRow:
        assignment = card.assignment
        return cls(
            card.pk,
            assignment.session.name,
            assignment.on_date,
            (card.venue or assignment.venue).name,
            card.started_at is not None,
        )


@dataclass(frozen=True, slots=True)
class HomePage:
    """`unanswered`: cards of today that are begun, and nobody has said yet how hard it was."""

    name: str
    stops: tuple[str, ...]
    instead: tuple[str, ...]
    today: tuple[CardRow, ...]
    unanswered: frozenset[int]
    coming: tuple[CardRow, ...]
    past: tuple[CardRow, ...]

    @classmethod
    def of(cls, actor: Actor) -> HomePage:
        day, cards = today(), Card.objects.visible_to(actor)
        coming = [CardRow.of(card) for card in coming_cards(cards, day)]
        flags = RedFlag.objects.filter(athlete__in=actor.athlete_ids, cleared_at=None).order_by("pk")
        now = tuple(row for row in coming if row.on_date == day)
        begun = frozenset(row.pk for row in now if row.is_begun)
        return cls(
            name=actor.name,
            stops=tuple(words.red_flag_text(flag.kind) for flag in flags),
            instead=tuple(can_do_instead(actor.athlete_ids)),
            today=now,
            unanswered=begun - efforts_of(begun).keys(),
            coming=tuple(row for row in coming if row.on_date > day),
            past=tuple(CardRow.of(card) for card in past_cards(cards, day)),
        )

    @property
    def is_empty(self) -> bool:
        return not (self.today or self.coming or self.past)
