"""Who comes to the door: a guest, somebody late."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from coachhub.base.actor import FLOOR, WRITERS, ActorRequest
from coachhub.base.clock import today
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.cards.actions import note_attendance
from coachhub.cards.actions.door import change_at_door
from coachhub.cards.actions.guests import welcome_guest
from coachhub.cards.forms_door import DoorSendForm, GuestForm, LateForm
from coachhub.cards.models import AttendanceStatus, Card
from coachhub.desk.pages.cards_assignment import changeable_assignment
from coachhub.desk.pages.cards_floor import find_pulse, floor_url
from coachhub.desk.pages.door_late import LatePage, find_late
from coachhub.desk.pages.forms import FormPage
from coachhub.desk.plain import posted, render_form


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
def floor_guest(request: ActorRequest, pk: int) -> HttpResponse:
    row, form = changeable_assignment(request.actor, pk), GuestForm(posted(request))
    if row.squad is None or row.on_date != today():
        messages.error(request, _("A guest comes to a squad's session of today."))
        return redirect(floor_url(pk))
    if form.is_valid():
        card = welcome_guest(actor=request.actor, assignment=row, **form.cleaned_data)
        text = _("%(name)s has a card. Tap the name to see whom to call, and note it if nobody has.")
        messages.success(request, text % {"name": card.athlete.name})
        return redirect(floor_url(pk, card.pk))
    intro = _("Gets a card of this session at once, and belongs to %(squad)s for today.") % {"squad": row.squad}
    page = FormPage(_("A guest"), _("Give a card"), floor_url(pk), intro)
    return render_form(request, form, page)


@roles(FLOOR)
@require_http_methods(["GET", "HEAD", "POST"])
def floor_late(request: ActorRequest, pk: int) -> HttpResponse:
    """The minutes first; then what to cut, which the coach takes or leaves."""
    data = request.POST if request.method == "POST" else request.GET
    find_pulse(request.actor, pk)
    sheet = find_late(request.actor, pk, data.get("card", ""))
    form = LateForm(data if "minutes" in data else None, initial={"card": sheet.card_id})
    minutes = form.cleaned_data["minutes"] if form.is_valid() else None
    page, sent = LatePage.of(request.actor, pk, sheet, minutes), DoorSendForm(data)
    if request.method != "POST" or minutes is None or not sent.is_valid():
        return render_page(request, "desk/door_late.html", page, form=form, status=422 if form.errors else 200)
    card = get_object_or_404(Card.objects.select_related("athlete", "assignment"), pk=sheet.card_id)
    note_attendance(actor=request.actor, card=card, status=AttendanceStatus.LATE, minutes_left=minutes)
    steps = next((one.steps for one in page.offers if one.place == form.cleaned_data["cut"]), ())
    if steps:
        uuid = sent.cleaned_data["uuid"]
        change_at_door(actor=request.actor, assignment=card.assignment, steps=steps, uuid=uuid, card=card)
    messages.success(request, _("%(name)s: late, %(n)s min left.") % {"name": sheet.athlete_name, "n": minutes})
    return redirect(floor_url(pk, card.pk))
