"""Where a phone goes on after something was sent: the card, at what is on now."""

from __future__ import annotations

from urllib.parse import urlencode

from django.urls import reverse

from coachhub.cards.sheet import Sheet, SheetGroup
from coachhub.gym.forms import TapForm


def card_url(card_id: int, at: str = "", anchor: str = "now") -> str:
    query = f"?{urlencode({'at': at})}" if at else ""
    return f"{reverse('gym:card', args=[card_id])}{query}#{anchor}"


def after_tap(card_id: int, form: TapForm) -> str:
    """A block that was gone to on purpose stays open until its last round is written."""
    group, number, at = form.groups[0], form.number, form.cleaned_data["at"]
    if number is None:
        return card_url(card_id, at, group.key)
    line = form.cleaned_data["line"]
    is_left = line != "" and any(
        cell.is_open for other in group.lines if other.key != line and (cell := other.cell(number))
    )
    return card_url(card_id, at if is_left or number < group.rounds_min else "")


def after_round(sheet: Sheet, group: SheetGroup, at: str) -> str:
    return card_url(sheet.card_id, at) if group.label else card_url(sheet.card_id, at, group.key)
