"""Paper of a session. Printing is a POST: it notes who holds a copy, so that a later change can ask for it back."""

from __future__ import annotations

from functools import partial

from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404
from django.views.decorators.http import require_http_methods

from coachhub.base.actor import READERS, ActorKind, ActorRequest
from coachhub.base.clock import now
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.cards.models import Assignment, Card
from coachhub.cards.queries import load_sheets
from coachhub.paper.forms import PrintForm, SizeForm
from coachhub.paper.kinds import Kind
from coachhub.paper.press import PrintingUnavailableError
from coachhub.paper.print_page import PrintPage, pdf_response
from coachhub.paper.printing import print_cards, print_kind
from coachhub.paper.sizes import remember_size, remembered_size


@roles(READERS)
@require_http_methods(["GET", "HEAD", "POST"])
def assignment_pdf(request: ActorRequest, pk: int) -> HttpResponse:
    """Choose what and for whom; then the PDF, in the order of names."""
    assignment = get_object_or_404(Assignment.objects.visible_to(request.actor).live(), pk=pk)
    sheets = load_sheets(Card.objects.visible_to(request.actor).filter(assignment=assignment))
    if not sheets:
        raise Http404
    data = request.POST if request.method == "POST" else None
    form = PrintForm(data, sheets=sheets, actor=request.actor, initial={"size": remembered_size(request).code})
    page, shown = PrintPage.of(request, sheets), partial(render_page, request, "paper/print.html", form=form)
    if not form.is_valid():
        return shown(page, status=422 if form.is_bound else 200)
    try:
        pdf = print_kind(
            request, form.chosen_kind, form.chosen, assignment=assignment, as_of=now(), size=form.chosen_size
        )
    except PrintingUnavailableError:
        return shown(page, is_unavailable=True, status=503)
    response = pdf_response(pdf, page.file_name(form.chosen_kind))
    remember_size(response, form.chosen_size)
    return response


@roles(READERS, ActorKind.ATHLETE)
@require_http_methods(["GET", "HEAD", "POST"])
def card_pdf(request: ActorRequest, pk: int) -> HttpResponse:
    """One card; the athlete's own, or one that the staff see."""
    sheets = load_sheets(Card.objects.visible_to(request.actor).filter(pk=pk))
    if not sheets:
        raise Http404
    form = SizeForm(request.POST if request.method == "POST" else None, initial={"size": remembered_size(request).code})
    page, shown = PrintPage.of(request, sheets), partial(render_page, request, "paper/print.html", form=form)
    if not form.is_valid():
        return shown(page, status=422 if form.is_bound else 200)
    try:
        pdf = print_cards(request, sheets, now(), form.chosen_size)
    except PrintingUnavailableError:
        return shown(page, is_unavailable=True, status=503)
    response = pdf_response(pdf, page.file_name(Kind.CARDS))
    remember_size(response, form.chosen_size)
    return response
