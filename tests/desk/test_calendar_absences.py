"""Who is away, at the desk and on the phone; why, is health, and read by few."""

from __future__ import annotations

import re
from datetime import timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from coachhub.base.clock import today
from coachhub.cards.actions import assign_session
from coachhub.cards.actions.absence import mark_absent
from coachhub.season.models import Absence
from tests.cast import Cast, Role
from tests.factories import AthleteFactory

TODAY = today().isoformat()


def ill(cast: Cast) -> Absence:
    return Absence.objects.create(athlete=cast.athlete, from_on=today(), to_on=today(), reason="ill")


@pytest.mark.parametrize("htmx", [False, True])
@pytest.mark.parametrize(
    ("role", "why"),
    [
        (Role.OWNER, "ill"),
        (Role.COACH, "ill"),
        (Role.CLINICIAN, "ill"),
        (Role.ASSISTANT, "absent"),
        (Role.HEAD_COACH, "absent"),
    ],
)
def test_only_who_reads_health_reads_why(cast: Cast, role: Role, why: str, htmx: bool) -> None:
    ill(cast)
    headers = {"HX-Request": "true"} if htmx else {}

    page = cast.client_of(role).get(f"/squads/{cast.squad.pk}/absences/", headers=headers).content.decode()

    assert re.findall(r"· (ill|absent)</span>", page) == [why]


def test_several_are_away_at_once_and_one_is_back(cast: Cast) -> None:
    coach, address = cast.client_of(Role.COACH), f"/squads/{cast.squad.pk}/absences/"
    athletes = [cast.athlete.pk, cast.team_mate.pk]

    coach.post(f"{address}add/", {"athletes": athletes, "from_on": TODAY, "reason": "away"})
    row = Absence.objects.get(athlete=cast.athlete)
    answer = coach.post(f"{address}{row.pk}/end/", follow=True)

    assert [one.athlete_id for one in Absence.objects.all()] == [cast.team_mate.pk]
    assert "Ingrid Moss is there again." in answer.content.decode()


@pytest.mark.parametrize(
    ("data", "field"),
    [
        ({"reason": ""}, "reason"),
        ({"to_on": "2020-01-01"}, "to_on"),
        ({"to_on": (today() + timedelta(days=400)).isoformat()}, "to_on"),
        ({"athletes": []}, "athletes"),
    ],
)
def test_wrong_absence_is_said_beside_its_field(cast: Cast, data: dict[str, object], field: str) -> None:
    sent = {"athletes": [cast.athlete.pk], "from_on": TODAY, "reason": "ill"} | data

    answer = cast.client_of(Role.COACH).post(f"/squads/{cast.squad.pk}/absences/add/", sent)

    assert (answer.status_code, list(answer.context["form"].errors)) == (422, [field])
    assert Absence.objects.count() == 0


def test_athlete_of_another_squad_cannot_be_chosen(cast: Cast) -> None:
    data = {"athletes": [cast.child.pk], "from_on": TODAY, "reason": "ill"}

    answer = cast.client_of(Role.COACH).post(f"/squads/{cast.squad.pk}/absences/add/", data)

    assert (answer.status_code, Absence.objects.count()) == (422, 0)


def test_page_takes_the_same_queries_for_one_row_and_thirty(cast: Cast) -> None:
    client = cast.client_of(Role.COACH)

    def queries() -> int:
        with CaptureQueriesContext(connection) as asked:
            client.get(f"/squads/{cast.squad.pk}/absences/")
        return len(asked)

    ill(cast)
    one = queries()
    for _ in range(30):
        athlete = AthleteFactory.create(squad=cast.squad)
        Absence.objects.create(athlete=athlete, from_on=today(), to_on=today(), reason="ill")
    assert (queries(), one <= 10) == (one, True)


def test_session_missed_is_given_on_another_day_and_then_reads_moved(cast: Cast) -> None:
    coach, later = cast.actor_of(Role.COACH), today() + timedelta(days=2)
    address = f"/squads/{cast.squad.pk}/absences/"
    assert cast.card.athlete == cast.athlete
    mark_absent(actor=coach, athletes=[cast.athlete], from_on=today(), to_on=today(), reason="ill")
    (again,) = re.findall(r'href="(/[^"]*\?session=[^"]*)"', cast.client_of(Role.COACH).get(address).content.decode())
    page = cast.client_of(Role.COACH).get(again.replace("&amp;", "&")).content.decode()
    assert ("Ingrid Moss" in page, "Monday lower" in page) == (True, True)

    assign_session(
        actor=coach, session=cast.session, squad=None, athletes=[cast.athlete], venue=cast.venue, on_date=later
    )

    text = cast.client_of(Role.ASSISTANT).get(address).content.decode()
    assert (f"moved to {later:%-d %b}" in text, "Give it on another day" in text) == (True, False)
    assert "Sessions missed" not in cast.client_of(Role.HEAD_COACH).get(address).content.decode()


def test_athlete_says_it_on_the_phone_and_takes_it_back(cast: Cast) -> None:
    phone = cast.client_of(Role.ATHLETE)
    assert phone.post("/g/absence/", {"from_on": "x", "reason": "ill"}).status_code == 422

    answer = phone.post("/g/absence/", {"from_on": TODAY, "to_on": "", "reason": "ill"}, follow=True)

    assert re.findall(r"</b> · (\w+)</p>", answer.content.decode()) == ["ill"]
    row = Absence.objects.get()
    assert cast.client_of(Role.TEAM_MATE).post(f"/g/absence/{row.pk}/back").status_code == 404
    phone.post(f"/g/absence/{row.pk}/back")
    assert Absence.objects.count() == 0
