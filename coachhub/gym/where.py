"""Where a phone goes on after something was sent: the card, at what is on now."""

from __future__ import annotations

from urllib.parse import urlencode

from django.urls import reverse

from coachhub.cards.sheet import Sheet, SheetGroup
from coachhub.gym.forms import TapForm


def card_url(sheet: Sheet, at: str = "", anchor: str = "now") -> str:
    query = f"?{urlencode({'at': at})}" if at else ""
    return f"{reverse('gym:card', args=[sheet.card_id])}{query}#{anchor}"


def after_tap(sheet: Sheet, form: TapForm) -> str:
    """A block that was gone to on purpose stays open until its last round is written."""
    group, number, at = form.groups[0], form.number, form.cleaned_data["at"]
    if number is None:
        return card_url(sheet, at, "before" if group in sheet.preparation else "after")
    line = form.cleaned_data["line"]
    is_left = line != "" and any(
        cell.is_open for other in group.lines if other.key != line and (cell := other.cell(number))
    )
    return card_url(sheet, at if is_left or number < group.rounds_min else "")


def after_round(sheet: Sheet, group: SheetGroup, at: str) -> str:
    if not group.label:
        return card_url(sheet, at, "before" if group in sheet.preparation else "after")
    return card_url(sheet, at)
