"""A round written for a whole squad at once: what it did, in words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from coachhub.base.actor import Actor
from coachhub.cards import queries
from coachhub.cards.models import Card
from coachhub.cards.sheet import Sheet


@dataclass(frozen=True, slots=True)
class RoundSummary:
    """What one tap for the whole squad did, in words."""

    written: int
    left_out: tuple[str, ...]

    def text(self, label: str, number: int) -> str:
        done = ngettext(
            "Round %(number)s of block %(label)s: %(n)s set written as planned.",
            "Round %(number)s of block %(label)s: %(n)s sets written as planned.",
            self.written,
        ) % {"number": number, "label": label, "n": self.written}
        return f"{done} {_('Left out: %(names)s.') % {'names': ', '.join(self.left_out)}}" if self.left_out else done


def left_out(sheets: Sequence[Sheet], label: str) -> tuple[str, ...]:
    """Who gets no entry by a tap for the whole squad, each with why."""
    why = []
    for sheet in sheets:
        if sheet.is_waiting:
            why.append(_("%(name)s (waits for a clearance)") % {"name": sheet.athlete_name})
        elif sheet.is_absent:
            why.append(_("%(name)s (absent)") % {"name": sheet.athlete_name})
        elif all(group.label != label or not group.lines for group in sheet.blocks):
            why.append(_("%(name)s (nothing in this block)") % {"name": sheet.athlete_name})
    return tuple(why)


def sheets_of(actor: Actor, assignment_id: int) -> list[tuple[Card, Sheet]]:
    """Everyone's card and sheet."""
    cards = Card.objects.visible_to(actor).filter(assignment=assignment_id)
    rows = {card.pk: card for card in cards.select_related("assignment", "athlete")}
    return [(rows[sheet.card_id], sheet) for sheet in queries.load_sheets(cards)]
