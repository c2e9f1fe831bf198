"""Enrolment codes as slips: on the screen once, or printed and cut."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime

import segno
from django.http import HttpRequest
from django.urls import reverse
from django.utils.translation import gettext as _

from coachhub.base.clock import now, today
from coachhub.people.actions import NewCode
from coachhub.people.models import Athlete, Device, Squad
from coachhub.people.queries import phones_of, waiting_code_until
from coachhub.people.queries_care import is_on_paper_only, squads_on


@dataclass(frozen=True, slots=True)
class Slip:
    """`qr`: the link as a picture, a data URI."""

    name: str
    code: str
    link: str
    qr: str
    expires_at: datetime

    @classmethod
    def of(cls, made: NewCode, request: HttpRequest) -> Slip:
        link = request.build_absolute_uri(reverse("front:enrol_link", kwargs={"token": made.token}))
        qr = segno.make(link, error="m", micro=False).svg_data_uri(scale=4, border=4, light="#fff")
        return cls(made.athlete.name, made.code, link, qr, made.expires_at)


@dataclass(frozen=True, slots=True)
class CodesPage:
    """`slips` is empty until codes have been made; they cannot be shown again. An athlete's page has the phones too.

    `why_none`: why no code is offered.
    """

    title: str
    back_url: str
    enrol_url: str
    slips: list[Slip]
    waiting: int
    athlete: Athlete | None = None
    phones: list[Device] = field(default_factory=list)
    code_until: datetime | None = None
    why_none: str = ""

    @classmethod
    def of_athlete(cls, request: HttpRequest, athlete: Athlete, made: list[NewCode]) -> CodesPage:
        return cls(
            title=_("A phone for %(name)s") % {"name": athlete},
            back_url=reverse("desk:athlete", kwargs={"pk": athlete.pk}),
            enrol_url=enrol_url(request),
            slips=[Slip.of(code, request) for code in made],
            waiting=1,
            athlete=athlete,
            phones=list(phones_of(athlete)),
            code_until=waiting_code_until(athlete, now()),
            why_none=on_paper() if is_on_paper_only(squads_on(athlete, today())) else "",
        )

    @classmethod
    def of_squad(cls, request: HttpRequest, squad: Squad, made: list[NewCode], waiting: int) -> CodesPage:
        return cls(
            title=_("Phones for %(name)s") % {"name": squad},
            back_url=reverse("desk:squad", kwargs={"pk": squad.pk}),
            enrol_url=enrol_url(request),
            slips=[Slip.of(code, request) for code in made],
            waiting=waiting,
            why_none=on_paper() if squad.is_paper_only else "",
        )


def on_paper() -> str:
    return _("On paper only: this squad trains without phones, so no codes are offered. Print the cards instead.")


def enrol_url(request: HttpRequest) -> str:
    return request.build_absolute_uri(reverse("front:enrol"))
