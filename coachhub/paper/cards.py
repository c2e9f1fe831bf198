"""Cards as one PDF."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import datetime
from typing import Final

from django.template.loader import get_template
from django.utils.translation import get_language
from django.utils.translation import gettext as _

from coachhub.cards.sheet import Sheet
from coachhub.paper.effort import effort_scale
from coachhub.paper.pages import PaperCard, paper_card
from coachhub.paper.press import print_documents
from coachhub.paper.sizes import A5, Size

# A document costs more per page the longer it is.
CARDS_A_DOCUMENT: Final = 20


def cards_pdf(
    sheets: Sequence[Sheet],
    *,
    as_of: datetime,
    address_of: Callable[[int], str],
    with_health: bool,
    size: Size = A5,
) -> bytes:
    """Return the cards as one tagged PDF, each on a page (or half of one) of its own, in the order given.

    `address_of` a card's key is what its QR code opens; `with_health` as for `paper_card`. The same input gives the
    same bytes. PrintingUnavailableError if this machine lacks the libraries.
    """
    cards = [
        paper_card(sheet, address=address_of(sheet.card_id), as_of=as_of, with_health=with_health) for sheet in sheets
    ]
    return print_documents(list(documents(cards, size)), size.setup)


def documents(cards: Sequence[PaperCard], size: Size = A5) -> Iterator[str]:
    """The cards as HTML, `CARDS_A_DOCUMENT` at a time."""
    template = get_template("paper/cards.html")
    shared = {"lang": get_language(), "effort": effort_scale(), "title": _title(cards), "page_class": size.page_class}
    for first in range(0, len(cards), CARDS_A_DOCUMENT):
        yield template.render({"cards": cards[first : first + CARDS_A_DOCUMENT], **shared})


def _title(cards: Sequence[PaperCard]) -> str:
    """What a reader shows as the document's name."""
    first = cards[0]
    who = first.name if len(cards) == 1 else first.squad or _("Cards")
    return f"{who} · {first.session} · {first.date}"
