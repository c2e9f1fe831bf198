"""Codes for phones, as the coach makes, shows and takes them back."""

from __future__ import annotations

import re
from datetime import timedelta

from django.test import Client

from coachhub.base.clock import now
from coachhub.people.models import Device, EnrolmentCode
from tests.cast import Cast, Role
from tests.factories import AthleteFactory


def test_code_is_shown_once_with_its_link_as_a_picture(cast: Cast) -> None:
    client, url = cast.client_of(Role.COACH), f"/athletes/{cast.athlete.pk}/code/"
    answer = client.post(url, {"for": "screen"})
    [slip] = answer.context["page"].slips
    page = answer.content.decode()
    assert (slip.code in page, slip.qr.startswith("data:image/svg+xml"), slip.link in page) == (True, True, False)
    assert "no-store" in answer.headers["Cache-Control"]
    assert slip.code not in client.get(url).content.decode()
    assert slip.code not in client.get(f"/athletes/{cast.athlete.pk}/").content.decode()


def test_shown_code_and_link_work(cast: Cast) -> None:
    client = cast.client_of(Role.COACH)
    code = client.post(f"/athletes/{cast.athlete.pk}/code/").context["page"].slips[0].code
    assert Client().post("/enrol/", {"code": code}).status_code == 302
    link = client.post(f"/athletes/{cast.athlete.pk}/code/").context["page"].slips[0].link
    path = re.sub(r"^http://testserver", "", link)
    phone = Client()
    phone.get(path)
    assert phone.post("/enrol/phone/").status_code == 302


def test_code_lasts_minutes_on_the_screen_and_a_week_on_paper(cast: Cast) -> None:
    client, lasts = cast.client_of(Role.COACH), []
    for where in ("screen", "paper", "forever"):
        client.post(f"/athletes/{cast.athlete.pk}/code/", {"for": where})
        row = EnrolmentCode.objects.latest("pk")
        lasts.append(round((row.expires_at - row.created_at) / timedelta(minutes=1)))
    assert lasts == [20, 7 * 24 * 60, 20]


def test_squad_sheet_has_a_slip_for_each_member_without_a_phone(cast: Cast) -> None:
    without = AthleteFactory.create_batch(3, squad=cast.squad)
    Device.objects.filter(athlete=cast.team_mate).update(revoked_at=now())
    slips = cast.client_of(Role.COACH).post(f"/squads/{cast.squad.pk}/codes/").context["page"].slips
    assert sorted(slip.name for slip in slips) == sorted(a.name for a in [*without, cast.team_mate])


def test_squad_where_all_have_phones_needs_no_sheet(cast: Cast) -> None:
    page = cast.client_of(Role.COACH).get(f"/squads/{cast.squad.pk}/codes/").content.decode()
    assert "Every member has a phone bound." in page


def test_coach_ends_a_phone(cast: Cast) -> None:
    phone = cast.client_of(Role.ATHLETE)
    url = f"/athletes/{cast.athlete.pk}/phones/{cast.device.pk}/revoke/"
    assert cast.client_of(Role.COACH).post(url).status_code == 302
    assert phone.get("/").status_code == 200


def test_phone_is_ended_only_under_its_own_athlete(cast: Cast) -> None:
    url = f"/athletes/{cast.team_mate.pk}/phones/{cast.device.pk}/revoke/"
    assert cast.client_of(Role.COACH).post(url).status_code == 404
    assert Device.objects.get(pk=cast.device.pk).revoked_at is None


def test_coach_takes_a_code_back(cast: Cast) -> None:
    client = cast.client_of(Role.COACH)
    code = client.post(f"/athletes/{cast.athlete.pk}/code/").context["page"].slips[0].code
    assert "A code waits to be used until" in client.get(f"/athletes/{cast.athlete.pk}/code/").content.decode()
    client.post(f"/athletes/{cast.athlete.pk}/code/revoke/")
    assert Client().post("/enrol/", {"code": code}).status_code == 422
