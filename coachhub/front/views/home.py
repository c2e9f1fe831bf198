"""The front door: everyone to where they belong."""

from __future__ import annotations

from typing import cast

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_safe

from coachhub.base.actor import ActorKind
from coachhub.base.gates import open_to_all
from coachhub.base.render import render_page
from coachhub.front.cookies import set_phone
from coachhub.front.pages import WelcomePage
from coachhub.people.access import PHONE_COOKIE
from coachhub.people.actions import note_phone_seen
from coachhub.people.middleware import ClubRequest


@open_to_all
@require_safe
def home(request: HttpRequest) -> HttpResponse:
    """Staff to their day, a bound phone to its cards; a phone's cookie gets its full time again."""
    actor = cast(ClubRequest, request).actor
    if actor.is_staff:
        return redirect("desk:waiting" if actor.kind is ActorKind.CLINICIAN else "desk:today")
    if actor.kind is ActorKind.ATHLETE:
        note_phone_seen(actor=actor)
        response = redirect("gym:home")
        set_phone(response, request.COOKIES[PHONE_COOKIE])
        return response
    return render_page(request, "front/home.html", WelcomePage.of(cast(ClubRequest, request).club))
