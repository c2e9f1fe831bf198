"""What was done: as planned by one tap, or set by set."""

from __future__ import annotations

from collections.abc import Sequence

from django.http import HttpResponse
from django.shortcuts import redirect
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST

from coachhub.base.actor import FLOOR, ActorKind, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.cards.actions import Outcome, StoredEntry, keep_both, log_as_planned, log_entries
from coachhub.cards.models import Card
from coachhub.gym.find import find_card, find_part, find_round, find_sheet, sheet_as_sent
from coachhub.gym.forms import SendForm, TapForm
from coachhub.gym.forms_round import RoundForm
from coachhub.gym.pages.card import CardPage
from coachhub.gym.pages.round import ConflictPage, RoundPage
from coachhub.gym.where import after_round, after_tap


@roles(FLOOR, ActorKind.ATHLETE)
@require_POST
@never_cache
def log(request: ActorRequest, pk: int) -> HttpResponse:
    """One tap: a round, one line of it, or a whole part, as planned."""
    part = find_part(request.actor, pk, request.POST)
    form = TapForm(request.POST, part=part)
    if part is None or not form.is_valid():
        page = CardPage.of(find_sheet(request.actor, pk), request.actor, at=request.POST.get("at", ""), form=form)
        return render_page(request, "gym/card.html", page, status=422)
    answers = log_as_planned(
        actor=request.actor,
        card=part.card,
        sheet=part,
        places=form.places,
        tap=form.as_tap(),
        line_key=form.cleaned_data["line"],
    )
    return answer(request, part.card, answers) or redirect(after_tap(pk, form))


@roles(FLOOR, ActorKind.ATHLETE)
@require_http_methods(["GET", "HEAD", "POST"])
@never_cache
def round_page(request: ActorRequest, pk: int, group: str, number: int) -> HttpResponse:
    """ "It was different", and what is put right later."""
    sheet = sheet_as_sent(find_sheet(request.actor, pk), request.POST)
    block = find_round(sheet, group, number)
    data = request.POST if request.method == "POST" else None
    sending, form = SendForm(data), RoundForm(data, sheet=sheet, group=block, number=number)
    at = (data or request.GET).get("at", "")
    if data is None or not (sending.is_valid() & form.is_valid()):
        page = RoundPage.of(sheet, block, form, request.actor, at, is_sent_wrong=bool(sending.errors))
        return render_page(request, "gym/round.html", page, status=200 if data is None else 422)
    card = find_card(request.actor, pk)
    answers = log_entries(actor=request.actor, card=card, drafts=form.drafts(sending.tap()))
    return answer(request, card, answers) or redirect(after_round(sheet, block, at))


def answer(request: ActorRequest, card: Card, answers: Sequence[StoredEntry]) -> HttpResponse | None:
    """409 with both versions where the same sending came with other content; both are kept."""
    twice = [given for given in answers if given.outcome is Outcome.CONFLICT]
    keep_both(actor=request.actor, card=card, answers=twice)
    mine = [given for given in twice if given.entry.card_id == card.pk]
    if not mine:
        return None
    page = ConflictPage.of(find_sheet(request.actor, card.pk), mine)
    return render_page(request, "gym/conflict.html", page, status=409)
