"""From what was chosen to the PDF; and the note of who holds a copy."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from functools import partial

from coachhub.base.actor import ActorRequest
from coachhub.cards.actions import note_copies
from coachhub.cards.models import Assignment, CopyKind
from coachhub.cards.sheet import Sheet
from coachhub.paper.cards import cards_pdf
from coachhub.paper.kinds import HOLDS_LOADS, Kind
from coachhub.paper.print_page import card_address, knows_health
from coachhub.paper.sheets import sheet_pdf
from coachhub.paper.sizes import Size


def print_kind(
    request: ActorRequest,
    kind: Kind,
    sheets: Sequence[Sheet],
    *,
    assignment: Assignment,
    as_of: datetime,
    size: Size,
) -> bytes:
    if kind is Kind.CARDS:
        return print_cards(request, sheets, as_of, size)
    pdf = sheet_pdf(kind, sheets, actor=request.actor, assignment=assignment, as_of=as_of, size=size)
    if kind in HOLDS_LOADS:
        _note(sheets)
    return pdf


def print_cards(request: ActorRequest, sheets: Sequence[Sheet], as_of: datetime, size: Size) -> bytes:
    pdf = cards_pdf(
        sheets,
        as_of=as_of,
        address_of=partial(card_address, request),
        with_health=knows_health(request.actor),
        size=size,
    )
    _note(sheets)
    return pdf


def _note(sheets: Sequence[Sheet]) -> None:
    """A card that waits prints only its notice: nobody holds a plan by it."""
    held = [(sheet.card_id, sheet.revision.number) for sheet in sheets if not sheet.is_waiting]
    note_copies(cards=held, kind=CopyKind.PRINTED)
