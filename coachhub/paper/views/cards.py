"""Cards on paper. Printing is a POST: it notes who holds a copy, so that a later change can ask for it back."""

from __future__ import annotations

from functools import partial

from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404
from django.views.decorators.http import require_http_methods

from coachhub.base.actor import READERS, ActorKind, ActorRequest
from coachhub.base.clock import now
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.cards.actions import note_copies
from coachhub.cards.models import Assignment, Card, CopyKind
from coachhub.cards.queries import load_sheets
from coachhub.cards.sheet import Sheet
from coachhub.paper.cards import cards_pdf
from coachhub.paper.forms import ChosenForm
from coachhub.paper.press import PrintingUnavailableError
from coachhub.paper.print_page import PrintPage, card_address, knows_health, pdf_response


@roles(READERS)
@require_http_methods(["GET", "HEAD", "POST"])
def assignment_pdf(request: ActorRequest, pk: int) -> HttpResponse:
    """Choose whose cards; then their PDF, in the order of names."""
    assignment = get_object_or_404(Assignment.objects.visible_to(request.actor).live(), pk=pk)
    sheets = load_sheets(Card.objects.visible_to(request.actor).filter(assignment=assignment))
    if not sheets:
        raise Http404
    form = ChosenForm(request.POST if request.method == "POST" else None, sheets)
    page = PrintPage.of(request, sheets)
    if not form.is_valid():
        return render_page(request, "paper/print.html", page, form=form, status=422 if form.is_bound else 200)
    chosen = set(form.cleaned_data["card"])
    return _printed(request, page, [sheet for sheet in sheets if sheet.card_id in chosen], form)


@roles(READERS, ActorKind.ATHLETE)
@require_http_methods(["GET", "HEAD", "POST"])
def card_pdf(request: ActorRequest, pk: int) -> HttpResponse:
    """One card; the athlete's own, or one that the staff see."""
    sheets = load_sheets(Card.objects.visible_to(request.actor).filter(pk=pk))
    if not sheets:
        raise Http404
    page = PrintPage.of(request, sheets)
    if request.method == "POST":
        return _printed(request, page, sheets)
    return render_page(request, "paper/print.html", page)


def _printed(
    request: ActorRequest, page: PrintPage, sheets: list[Sheet], form: ChosenForm | None = None
) -> HttpResponse:
    try:
        pdf = cards_pdf(
            sheets,
            as_of=now(),
            address_of=partial(card_address, request),
            with_health=knows_health(request.actor),
        )
    except PrintingUnavailableError:
        return render_page(request, "paper/print.html", page, form=form, is_unavailable=True, status=503)
    # A card that waits prints only its notice: nobody holds a plan by it.
    note_copies(
        cards=[(sheet.card_id, sheet.revision.number) for sheet in sheets if not sheet.is_waiting],
        kind=CopyKind.PRINTED,
    )
    return pdf_response(pdf, page.file_name)
