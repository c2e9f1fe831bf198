"""Changing the session at the door: look, see what it would do, do it, undo it."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from coachhub.base.actor import WRITERS, ActorRequest
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.cards.actions.door import change_at_door, undo_at_door
from coachhub.cards.forms_door import DoorForm, DoorSendForm, DoorUndoForm
from coachhub.cards.models import DoorChange
from coachhub.desk.pages.cards_assignment import changeable_assignment
from coachhub.desk.pages.door import DoorPage, DoorPreview, asked_card, door_url, find_door, made_text


@roles(WRITERS)
@require_safe
def door(request: ActorRequest, pk: int) -> HttpResponse:
    row, only, session = find_door(request.actor, pk, asked_card(request.GET.get("card", "")))
    return render_page(request, "desk/door.html", DoorPage.of(row, only, session))


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def door_change(request: ActorRequest, pk: int) -> HttpResponse:
    """First what it would do to whom; then it is done."""
    data = request.POST if request.method == "POST" else request.GET
    row, only, session = find_door(request.actor, pk, asked_card(data.get("card", "")))
    sent = DoorSendForm(data)
    uuid = sent.cleaned_data["uuid"] if request.method == "POST" and sent.is_valid() else None
    form, page = DoorForm(data, session=session), DoorPage.of(row, only, session)
    made = DoorChange.objects.filter(uuid=uuid, assignment=row).first() if uuid else None
    if made is None and (not form.is_valid() or page.is_past):
        return render_page(request, "desk/door.html", page, form=form, status=422)
    if uuid is None:
        preview = DoorPreview.of(request.actor, row, only, form.step)
        return render_page(request, "desk/door_change.html", preview, form=form)
    if made is None:
        made = change_at_door(actor=request.actor, assignment=row, steps=[form.step], uuid=uuid, card=only).change
    messages.success(request, made_text(made))
    return redirect(door_url(pk, only.pk if only else None))


@roles(WRITERS)
@require_POST
def door_undo(request: ActorRequest, pk: int) -> HttpResponse:
    row, form = changeable_assignment(request.actor, pk), DoorUndoForm(request.POST)
    number = form.cleaned_data["change"] if form.is_valid() else 0
    change = get_object_or_404(DoorChange, pk=number, assignment=row)
    plans = undo_at_door(actor=request.actor, change=change)
    staying = [plan.held.card.athlete.name for plan in plans if plan.stays]
    text = _("Undone.") if plans else _("There was nothing to undo any more.")
    messages.success(request, f"{text} {_('Left as it is: %s.') % ', '.join(staying)}" if staying else text)
    return redirect(door_url(pk, change.card_id))
