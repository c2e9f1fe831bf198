"""The page before the paper: which cards, and what to know of each."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from django.http import HttpRequest, HttpResponse
from django.urls import reverse
from django.utils.http import content_disposition_header
from django.utils.text import slugify
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor, ActorKind, ActorRequest
from coachhub.cards.sheet import Sheet
from coachhub.paper.kinds import Kind


@dataclass(frozen=True, slots=True)
class PrintRow:
    """One athlete's card; `remarks` are reasons to think twice."""

    card_id: int
    name: str
    remarks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PrintPage:
    """`shell`: staff see their navigation, an athlete's phone the bare page."""

    session: str
    on_date: date
    who: str
    back: str
    address: str
    shell: str
    rows: tuple[PrintRow, ...]

    @classmethod
    def of(cls, request: ActorRequest, sheets: Sequence[Sheet]) -> PrintPage:
        first, is_one = sheets[0], len(sheets) == 1
        is_athlete = request.actor.kind is ActorKind.ATHLETE
        card_url = reverse("gym:card", args=[first.card_id])
        return cls(
            session=first.session_name,
            on_date=first.on_date,
            who=first.athlete_name if is_one else first.squad_name or _("single athletes"),
            back=card_url if is_athlete else reverse("desk:assignment", args=[first.assignment_id]),
            address=card_address(request, first.card_id),
            shell="bare.html" if is_athlete else "base.html",
            rows=tuple(PrintRow(s.card_id, s.athlete_name, tuple(_remarks(s))) for s in sheets),
        )

    def file_name(self, kind: Kind) -> str:
        what = "" if kind is Kind.CARDS else f"-{kind.value}"
        return f"{self.on_date:%Y-%m-%d}-{slugify(self.session)}-{slugify(self.who)}{what}.pdf"


def _remarks(sheet: Sheet) -> Iterator[str]:
    if sheet.is_waiting:
        yield _("waits for a clearance: only the notice is printed")
    if sheet.is_stale:
        yield _("out of date: renew it first")
    if sheet.is_absent:
        yield _("absent")


def card_address(request: HttpRequest, card_id: int) -> str:
    """Where a phone opens the card; what is there is behind enrolment."""
    return request.build_absolute_uri(reverse("gym:card", args=[card_id]))


def knows_health(actor: Actor) -> bool:
    """Whether the card may say which restriction left an exercise out: to the athlete, and to who sees health."""
    return actor.sees_health or actor.kind is ActorKind.ATHLETE


def pdf_response(pdf: bytes, file_name: str) -> HttpResponse:
    """As a file: a browser that shows it in place would ask for it again by GET when it saves or prints."""
    disposition = content_disposition_header(as_attachment=True, filename=file_name)
    headers = {"Content-Disposition": disposition or "attachment", "Cache-Control": "no-store"}
    return HttpResponse(pdf, content_type="application/pdf", headers=headers)
