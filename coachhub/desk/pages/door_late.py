"""Somebody comes late: what to cut so that they end on time."""

from __future__ import annotations

from dataclasses import dataclass
from uuid import UUID, uuid4

from django.http import Http404
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.cards.models import Card
from coachhub.cards.queries import load_sheet
from coachhub.cards.sheet import Sheet
from coachhub.cards.timing import timed_card
from coachhub.cards.words_door import steps_text
from coachhub.coaching.door import DoorStep
from coachhub.coaching.late import LateCut, late_cuts
from coachhub.desk.pages.cards_floor import floor_url


@dataclass(frozen=True, slots=True)
class Offer:
    place: int
    text: str
    minutes: int
    fits: bool
    steps: tuple[DoorStep, ...]


@dataclass(frozen=True, slots=True)
class LatePage:
    """`offers`: only for who may change the card, and once the minutes are known."""

    pk: int
    sheet: Sheet
    uuid: UUID
    offers: tuple[Offer, ...]
    back_url: str

    @classmethod
    def of(cls, actor: Actor, pk: int, sheet: Sheet, minutes: int | None) -> LatePage:
        may_cut = minutes is not None and Card.objects.editable_by(actor).filter(pk=sheet.card_id).exists()
        offers = offers_for(sheet, minutes) if may_cut and minutes else ()
        return cls(pk, sheet, uuid4(), offers, floor_url(pk, sheet.card_id))

    @property
    def best(self) -> int | None:
        """The first that fits, else the last."""
        return next((one.place for one in self.offers if one.fits), len(self.offers) - 1) if self.offers else None


def offers_for(sheet: Sheet, minutes: int) -> tuple[Offer, ...]:
    cuts = late_cuts(timed_card(sheet), minutes)
    return tuple(_offer(place, cut, sheet) for place, cut in enumerate(cuts))


def _offer(place: int, cut: LateCut, sheet: Sheet) -> Offer:
    blocks = {block.label: block for block in sheet.blocks}
    steps = []
    for label, rounds in cut.rounds:
        block = blocks[label]
        if rounds:
            steps.append(DoorStep("rounds", block.key, rounds, label, str(block.rounds_max), str(rounds)))
        else:
            steps.append(DoorStep("block", block.key, label=label))
    return Offer(place, steps_text(steps) or _("the session as it is"), cut.minutes, cut.fits, tuple(steps))


def find_late(actor: Actor, pk: int, card: str) -> Sheet:
    """The sheet of the card that the address names; else Http404."""
    cards = Card.objects.visible_to(actor).filter(assignment=pk)
    sheet = load_sheet(cards, int(card)) if card.isdigit() and len(card) <= 18 else None
    if sheet is None:
        raise Http404
    return sheet
