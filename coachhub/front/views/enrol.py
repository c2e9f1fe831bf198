"""An athlete's way in: a typed code, or a link that is opened and then said yes to."""

from __future__ import annotations

from datetime import date
from typing import Final, cast

from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_safe

from coachhub.base.actor import Actor, ActorRequest
from coachhub.base.clock import now
from coachhub.base.gates import open_to_all
from coachhub.base.render import render_page
from coachhub.front.brake import Brake, address_of
from coachhub.front.cookies import forget_link, link_of, set_link, set_phone
from coachhub.front.forms import CodeForm
from coachhub.front.pages import EnrolPage, label_of
from coachhub.people.actions import enrol_device
from coachhub.people.queries import athlete_of_link

# Only wrong codes count. With the brake on, a right code still works, together with the date of birth:
# whoever guesses has far more to guess, and a squad behind one gym address is never shut out.
ADDRESS_BRAKE: Final = Brake("code", tries=10, window_s=600)
CLUB_BRAKE: Final = Brake("codes", tries=100, window_s=600)


@open_to_all
@require_http_methods(["GET", "POST"])
@never_cache
def enrol(request: HttpRequest) -> HttpResponse:
    """The athlete types the code."""
    actor = cast(ActorRequest, request).actor
    data = request.POST if request.method == "POST" else None
    form = CodeForm(data, asks_birthday=is_braked(address_of(request)))
    if form.is_valid():
        try:
            return bind(request, actor, code=form.cleaned_data["code"], born_on=form.birthday)
        except ValidationError as error:
            count_wrong(address_of(request))
            form.add_error("code", error)
    return render_page(
        request, "front/enrol.html", EnrolPage.of(actor), form=form, status=422 if form.is_bound else 200
    )


@open_to_all
@require_safe
@never_cache
def enrol_link(request: HttpRequest, token: str) -> HttpResponse:
    """The secret goes from the address into a short cookie; nothing is used up, so that a link preview does no harm."""
    response = redirect("front:enrol_phone")
    set_link(response, token)
    response["Referrer-Policy"] = "no-referrer"
    return response


@open_to_all
@require_http_methods(["GET", "POST"])
@never_cache
def enrol_phone(request: HttpRequest) -> HttpResponse:
    """ "Bind this phone to Ingrid?" - and on yes it is."""
    actor = cast(ActorRequest, request).actor
    token = link_of(request)
    athlete = athlete_of_link(token, now()) if token else None
    if athlete is None:
        return render_page(request, "front/enrol_phone.html", EnrolPage.of(actor), status=410)
    if request.method == "GET":
        return render_page(request, "front/enrol_phone.html", EnrolPage.of(actor, athlete.given_name))
    try:
        return bind(request, actor, token=token)
    except ValidationError:
        return render_page(request, "front/enrol_phone.html", EnrolPage.of(actor), status=410)


def bind(
    request: HttpRequest, actor: Actor, *, code: str = "", token: str = "", born_on: date | None = None
) -> HttpResponse:
    label = label_of(request.headers.get("User-Agent", ""))
    made = enrol_device(code=code, token=token, born_on=born_on, label=label, replaces=actor.device_id)
    response = redirect("front:home")
    set_phone(response, made.token)
    forget_link(response)
    return response


def is_braked(address: str) -> bool:
    return ADDRESS_BRAKE.is_on(address) or CLUB_BRAKE.is_on("")


def count_wrong(address: str) -> None:
    ADDRESS_BRAKE.take(address)
    CLUB_BRAKE.take("")
