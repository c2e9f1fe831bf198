"""A round written for a whole squad at once: what it did, in words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from uuid import UUID

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.cards import queries
from coachhub.cards.actions import TakenBack
from coachhub.cards.forms import TakeBackForm
from coachhub.cards.models import Card
from coachhub.cards.sheet import Sheet
from coachhub.desk.pages.cards_floor import floor_url


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


def cards_of(actor: Actor, assignment_id: int) -> list[Card]:
    return list(Card.objects.visible_to(actor).filter(assignment=assignment_id).select_related("assignment"))


def round_url(pk: int, sending: UUID) -> str:
    """The floor page, offering to take back what this sending wrote."""
    return f"{floor_url(pk)}?sent={sending}"


def sending_to_take_back(head: queries.FloorHead, sent: str) -> UUID | None:
    """None where the address names none, or its day is over."""
    form = TakeBackForm({"uuid": sent})
    return form.cleaned_data["uuid"] if head.on_date >= today() and form.is_valid() else None


def taken_text(done: TakenBack) -> str:
    """Return "6 sets taken back. 1 set was corrected meanwhile and stays."."""
    if not (done.taken or done.kept):
        return _("There is nothing to take back.")
    taken = ngettext("%(n)s set taken back.", "%(n)s sets taken back.", done.taken) % {"n": done.taken}
    if not done.kept:
        return taken
    kept = ngettext(
        "%(n)s set was corrected meanwhile and stays.", "%(n)s sets were corrected meanwhile and stay.", done.kept
    )
    return f"{taken} {kept % {'n': done.kept}}"
