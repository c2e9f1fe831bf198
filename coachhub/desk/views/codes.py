from __future__ import annotations

from datetime import timedelta
from typing import Final

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST

from coachhub.base.actor import WRITERS, ActorRequest
from coachhub.base.clock import today
from coachhub.base.gates import roles
from coachhub.base.render import render_page
from coachhub.desk.pages.athletes import find_athlete
from coachhub.desk.pages.codes import CodesPage
from coachhub.desk.pages.squads import find_squad
from coachhub.people import actions
from coachhub.people.queries import athletes_without_phone, phones_of

# On the screen, for whoever stands there; on paper, for the week.
LIFETIMES: Final = {"screen": timedelta(minutes=20), "paper": timedelta(days=7)}


def asked_lifetime(request: ActorRequest) -> timedelta:
    return LIFETIMES.get(request.POST.get("for", ""), LIFETIMES["screen"])


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
@never_cache
def athlete_code(request: ActorRequest, pk: int) -> HttpResponse:
    """The code is in the answer to the POST and nowhere else afterwards, so there is no redirect."""
    athlete = find_athlete(request.actor, pk)
    made, status = [], 200
    if request.method == "POST":
        try:
            lifetime = asked_lifetime(request)
            made = [actions.make_enrolment_code(actor=request.actor, athlete=athlete, lifetime=lifetime)]
        except ValidationError:
            status = 422  # the page says why
    return render_page(request, "desk/codes.html", CodesPage.of_athlete(request, athlete, made), status=status)


@roles(WRITERS)
@require_http_methods(["GET", "HEAD", "POST"])
@never_cache
def squad_codes(request: ActorRequest, pk: int) -> HttpResponse:
    """One slip for every member who has no phone bound."""
    squad = find_squad(request.actor, pk)
    athletes = athletes_without_phone(squad, today())
    made = []
    if request.method == "POST":
        made = actions.make_enrolment_codes(actor=request.actor, athletes=athletes, lifetime=asked_lifetime(request))
    return render_page(request, "desk/codes.html", CodesPage.of_squad(request, squad, made, len(athletes)))


@roles(WRITERS)
@require_POST
def code_revoke(request: ActorRequest, pk: int) -> HttpResponse:
    actions.revoke_code(actor=request.actor, athlete=find_athlete(request.actor, pk))
    messages.success(request, _("The code no longer works."))
    return redirect("desk:athlete_code", pk=pk)


@roles(WRITERS)
@require_POST
def phone_revoke(request: ActorRequest, pk: int, device_pk: int) -> HttpResponse:
    device = get_object_or_404(phones_of(find_athlete(request.actor, pk)), pk=device_pk)
    actions.revoke_device(actor=request.actor, device=device)
    messages.success(request, _("That phone no longer opens anything."))
    return redirect("desk:athlete_code", pk=pk)
