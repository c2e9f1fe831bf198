"""The floor: what the page shows, its poll, and the taps on it."""

from __future__ import annotations

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_POST, require_safe

from coachhub.base.actor import FLOOR, READERS, ActorRequest
from coachhub.base.clock import now
from coachhub.base.gates import roles
from coachhub.base.render import is_fragment, render_page
from coachhub.cards import actions
from coachhub.cards.forms import AttendanceForm, MarkForm, SquadRoundForm, TakeBackForm
from coachhub.cards.models import Card
from coachhub.cards.queries import load_sheets
from coachhub.desk.pages.cards_floor import FloorPage, find_pulse, floor_url
from coachhub.desk.pages.cards_floor_round import (
    RoundSummary,
    cards_of,
    left_out,
    round_url,
    sending_to_take_back,
    sheets_of,
    taken_text,
)


@roles(READERS)
@require_safe
def floor(request: ActorRequest, pk: int) -> HttpResponse:
    """A poll (`?since=`) is answered with 204 as long as nothing is new."""
    pulse = find_pulse(request.actor, pk)
    if is_fragment(request) and request.GET.get("since") == pulse.token:
        return HttpResponse(status=204)
    page = FloorPage.of(request.actor, pulse)
    form = SquadRoundForm(rounds=page.rounds, is_coming=page.head.is_coming, initial=page.next_round)
    sending = sending_to_take_back(page.head, request.GET.get("sent", "")) if page.may_log else None
    return render_page(request, "desk/cards_floor.html", page, partial="live", form=form, sending=sending)


@roles(FLOOR)
@require_POST
def floor_round(request: ActorRequest, pk: int) -> HttpResponse:
    """The whole squad's round as planned."""
    pulse = find_pulse(request.actor, pk)
    page = FloorPage.of(request.actor, pulse)
    form = SquadRoundForm(request.POST, rounds=page.rounds, is_coming=page.head.is_coming)
    if not form.is_valid():
        return render_page(request, "desk/cards_floor.html", page, form=form, status=422)
    sheets = sheets_of(request.actor, pk)
    uuid, label, number = (form.cleaned_data[name] for name in ("uuid", "label", "number"))
    written = actions.log_squad_round(
        actor=request.actor, sheets=sheets, client_at=now(), label=label, number=number, uuid=uuid
    )
    summary = RoundSummary(written, left_out([sheet for _card, sheet in sheets], label))
    messages.success(request, summary.text(label, number))
    return redirect(round_url(pk, uuid) if written else floor_url(pk))


@roles(FLOOR)
@require_POST
def floor_take_back(request: ActorRequest, pk: int) -> HttpResponse:
    """What one tap for the whole squad wrote."""
    assignment, form = find_pulse(request.actor, pk).assignment_id, TakeBackForm(request.POST)
    if not form.is_valid():
        raise Http404
    cards, uuid = cards_of(request.actor, assignment), form.cleaned_data["uuid"]
    try:
        done = actions.take_back_squad_round(actor=request.actor, cards=cards, uuid=uuid)
        messages.success(request, taken_text(done))
    except actions.DayOverError:
        messages.error(request, _("Its day is over: correct the sets one by one."))
    return redirect(floor_url(pk))


@roles(FLOOR)
@require_POST
def floor_mark(request: ActorRequest, pk: int) -> HttpResponse:
    """Clean or shaky, for one athlete's round of a block."""
    assignment, form = find_pulse(request.actor, pk).assignment_id, MarkForm(request.POST)
    if not form.is_valid():
        raise Http404
    card_pk, group_key, number, quality = form.parts
    cards = Card.objects.visible_to(request.actor).filter(assignment=assignment, pk=card_pk)
    card, sheet = get_object_or_404(cards), load_sheets(cards)[0]
    n = actions.mark_round(
        actor=request.actor, card=card, sheet=sheet, group_key=group_key, number=number, quality=quality
    )
    told = {"n": n, "quality": quality.label, "name": sheet.athlete_name}
    text = ngettext("%(name)s: %(n)s set marked %(quality)s.", "%(name)s: %(n)s sets marked %(quality)s.", n)
    messages.success(request, text % told)
    return redirect(floor_url(pk, card_pk))


@roles(FLOOR)
@require_POST
def floor_attendance(request: ActorRequest, pk: int) -> HttpResponse:
    assignment, form = find_pulse(request.actor, pk).assignment_id, AttendanceForm(request.POST)
    if not form.is_valid():
        raise Http404
    card_pk, status = form.parts
    cards = Card.objects.visible_to(request.actor).select_related("athlete")
    card = get_object_or_404(cards, assignment=assignment, pk=card_pk)
    actions.note_attendance(actor=request.actor, card=card, status=status)
    messages.success(request, _("%(name)s: %(status)s.") % {"name": card.athlete.name, "status": status.label})
    return redirect(floor_url(pk, card_pk))
