"""Enrolment codes as slips: on the screen once, or printed and cut."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

import segno
from django.http import HttpRequest
from django.urls import reverse

from coachhub.people.actions import NewCode


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
    """`slips` is empty until codes have been made; they cannot be shown again."""

    title: str
    back_url: str
    enrol_url: str
    slips: list[Slip]
    waiting: int = 0

    @classmethod
    def of(
        cls, request: HttpRequest, title: str, back_url: str, *, made: list[NewCode] | None = None, waiting: int = 1
    ) -> CodesPage:
        enrol_url = request.build_absolute_uri(reverse("front:enrol"))
        return cls(title, back_url, enrol_url, [Slip.of(code, request) for code in made or []], waiting)
