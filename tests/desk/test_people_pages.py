"""Squads, athletes, staff and club: found, added, changed, ended."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from coachhub.base.clock import today
from coachhub.people.models import Athlete, Availability, Club, Membership, Squad, Staff
from tests.cast import Cast, Role
from tests.factories import (
    AthleteFactory,
    AvailabilityFactory,
    ConsentFactory,
    GuardianshipFactory,
    SquadFactory,
    StaffFactory,
    days_ago,
    years_ago,
)

LONG = "seven herons over the weir"


@pytest.mark.parametrize("htmx", [False, True])
def test_search_finds_by_part_of_a_name(cast: Cast, htmx: bool) -> None:
    headers = {"HX-Request": "true"} if htmx else {}
    answer = cast.client_of(Role.COACH).get("/athletes/?q=MOS", headers=headers)
    page = answer.content.decode()
    assert ("Ingrid Moss" in page, "Petra Vane" in page, "<html" in page) == (True, False, not htmx)
    assert "HX-Request" in answer.headers["Vary"]


def test_search_that_finds_nobody_offers_the_way_back(cast: Cast) -> None:
    page = cast.client_of(Role.COACH).get("/athletes/?q=zzz").content.decode()
    assert "No athlete matches." in page
    assert 'href="/athletes/">Show all athletes' in page


def test_list_is_paged_at_50(cast: Cast) -> None:
    AthleteFactory.create_batch(49, squad=cast.squad)
    client = cast.client_of(Role.COACH)
    lengths = [len(client.get(f"/athletes/?page={number}").context["page"].lines) for number in (1, 2)]
    assert lengths == [50, 1]


@pytest.mark.parametrize(
    ("address", "most"),
    [("/squads/", 10), ("/squads/{squad}/", 10), ("/athletes/", 10), ("/athletes/{athlete}/", 15), ("/staff/", 10)],
)
def test_queries_are_few_and_the_same_for_thirty_rows(cast: Cast, address: str, most: int) -> None:
    url, counts = address.format(squad=cast.squad.pk, athlete=cast.athlete.pk), []
    for more in (0, 30):
        for athlete in AthleteFactory.create_batch(more, squad=cast.squad):
            AvailabilityFactory.create(athlete=athlete)
            GuardianshipFactory.create(athlete=cast.athlete)
            ConsentFactory.create(athlete=athlete)
            StaffFactory.create(squads=[cast.squad, SquadFactory.create()])
        client = cast.client_of(Role.OWNER)
        with CaptureQueriesContext(
            connection,
        ) as caught:
            client.get(url)
        counts.append(len(caught))
    assert counts[0] == counts[1] <= most


def test_squad_page_has_members_of_today_and_those_of_before(cast: Cast) -> None:
    Membership.objects.filter(athlete=cast.team_mate).update(ended_on=days_ago(1))
    page = cast.client_of(Role.COACH).get(f"/squads/{cast.squad.pk}/").context["page"]
    assert [line.name for line in page.lines] == ["Ingrid Moss"]
    assert [row.athlete for row in page.others] == [cast.team_mate]


def test_owner_adds_a_squad(cast: Cast) -> None:
    answer = cast.client_of(Role.OWNER).post("/squads/add/", {"name": "Under-15", "note": ""})
    assert answer.headers["Location"] == f"/squads/{Squad.objects.get(name='Under-15').pk}/"


@pytest.mark.parametrize("name", ["", "Seniors", "x" * 61])
def test_squad_with_a_bad_name_is_not_added(cast: Cast, name: str) -> None:
    answer = cast.client_of(Role.OWNER).post("/squads/add/", {"name": name, "note": "kept as typed"})
    assert (answer.status_code, list(answer.context["form"].errors)) == (422, ["name"])
    assert 'value="kept as typed"' in answer.content.decode()


def athlete_data(**values: object) -> dict[str, object]:
    given = {
        "given_name": "Runa",
        "family_name": "Beck",
        "born_on": str(years_ago(15)),
        "unit": "kg",
        "level": "novice",
    }
    return given | values


def test_coach_adds_an_athlete_to_an_own_squad(cast: Cast) -> None:
    cast.client_of(Role.COACH).post("/athletes/add/", athlete_data(squad=cast.squad.pk))
    assert Athlete.objects.get(family_name="Beck").memberships.get().squad == cast.squad


def test_coach_cannot_add_to_another_squad_or_to_none(cast: Cast) -> None:
    client, before = cast.client_of(Role.COACH), Athlete.objects.count()
    for squad in (cast.other_squad.pk, ""):
        answer = client.post("/athletes/add/", athlete_data(squad=squad))
        assert (answer.status_code, list(answer.context["form"].errors)) == (422, ["squad"])
    assert Athlete.objects.count() == before


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("born_on", "yesterday"),
        ("born_on", str(date(today().year + 1, 1, 1))),
        ("born_on", "1901-01-01"),
        ("given_name", ""),
        ("family_name", "x" * 61),
        ("level", "expert"),
        ("unit", "st"),
        ("note", "x" * 1001),
    ],
)
def test_bad_value_is_said_beside_its_field(cast: Cast, field: str, value: str) -> None:
    data = athlete_data(squad=cast.squad.pk, position="left back") | {field: value}
    answer = cast.client_of(Role.COACH).post("/athletes/add/", data)
    assert (answer.status_code, list(answer.context["form"].errors)) == (422, [field])
    assert 'value="left back"' in answer.content.decode()


def test_sixty_letters_of_name_are_taken(cast: Cast) -> None:
    data = athlete_data(squad=cast.squad.pk, family_name="x" * 60)
    assert cast.client_of(Role.COACH).post("/athletes/add/", data).status_code == 302


def test_coach_changes_an_athlete(cast: Cast) -> None:
    data = athlete_data(given_name="Ingrid", family_name="Moss-Fell", level="advanced", is_rir_taught="on")
    cast.client_of(Role.COACH).post(f"/athletes/{cast.athlete.pk}/edit/", data)
    row = Athlete.objects.get(pk=cast.athlete.pk)
    assert (row.family_name, row.search_key, row.level, row.is_rir_taught) == (
        "Moss-Fell",
        "moss-fell ingrid",
        "advanced",
        True,
    )


def test_member_joins_from_another_squad_that_the_owner_sees(cast: Cast) -> None:
    data = {"athlete": cast.child.pk, "started_on": str(today())}
    url = f"/squads/{cast.squad.pk}/join/"
    assert cast.client_of(Role.COACH).post(url, data).status_code == 422
    assert cast.client_of(Role.OWNER).post(url, data).status_code == 302
    assert cast.child.memberships.filter(ended_on=None).count() == 2


def test_member_leaves_on_a_day(cast: Cast) -> None:
    membership = cast.athlete.memberships.get()
    url = f"/squads/{cast.squad.pk}/leave/{membership.pk}/"
    bad = cast.client_of(Role.COACH).post(url, {"ended_on": str(days_ago(200))})
    good = cast.client_of(Role.COACH).post(url, {"ended_on": str(today())})
    membership.refresh_from_db()
    assert (bad.status_code, good.status_code, membership.ended_on) == (422, 302, today())


def test_clinician_sets_availability(cast: Cast) -> None:
    data = {"status": "out", "from_on": str(today()), "can_do": ""}
    cast.client_of(Role.CLINICIAN).post(f"/athletes/{cast.athlete.pk}/availability/", data)
    row = Availability.objects.get()
    assert (row.athlete, row.status, row.set_by) == (cast.athlete, "out", cast.staff[Role.CLINICIAN].user)


def test_owner_lets_an_athlete_go_after_being_asked(cast: Cast) -> None:
    client, url = cast.client_of(Role.OWNER), f"/athletes/{cast.athlete.pk}/archive/"
    client.get(url)
    assert not Athlete.objects.get(pk=cast.athlete.pk).is_archived
    client.post(url)
    assert Athlete.objects.get(pk=cast.athlete.pk).is_archived
    assert client.get(f"/athletes/{cast.athlete.pk}/").status_code == 404


def test_owner_adds_staff_who_can_log_in(cast: Cast) -> None:
    data = {"name": "Tova Reef", "role": "coach", "username": "tova", "email": "", "password": LONG}
    answer = cast.client_of(Role.OWNER).post("/staff/add/", data | {"squads": [cast.squad.pk]})
    assert answer.headers["Location"] == "/staff/"
    assert list(Staff.objects.get(name="Tova Reef").squads.all()) == [cast.squad]


@pytest.mark.parametrize(
    ("field", "value"),
    [("username", "coach"), ("username", "a b"), ("email", "coach-co@CLUB.example"), ("password", "short")],
)
def test_bad_staff_is_said_beside_its_field_and_no_password_comes_back(cast: Cast, field: str, value: str) -> None:
    data = {"name": "Tova", "role": "coach", "username": "tova", "email": "", "password": LONG} | {field: value}
    answer = cast.client_of(Role.OWNER).post("/staff/add/", data)
    assert (answer.status_code, list(answer.context["form"].errors)) == (422, [field])
    assert LONG not in answer.content.decode()


def test_last_owner_is_told_why_not(cast: Cast) -> None:
    answer = cast.client_of(Role.OWNER).post(f"/staff/{cast.staff[Role.OWNER].pk}/archive/")
    assert answer.status_code == 422
    assert "make someone else owner first" in answer.content.decode()


def test_owner_changes_the_club(cast: Cast) -> None:
    data = {"name": "Tarn Valley HC", "unit": "lb", "time_zone": "Europe/Oslo", "accent": "#1d3f7a", "gap_days": "21"}
    client = cast.client_of(Role.OWNER)
    bad = client.post("/club/", data | {"time_zone": "Mars/North"})
    assert (bad.status_code, list(bad.context["form"].errors)) == (422, ["time_zone"])
    assert 'class="club" href="/">Tarn Valley Handball Club<' in bad.content.decode()
    client.post("/club/", data)
    assert Club.objects.get().accent == "#1d3f7a"
    assert 'data-accent="#1d3f7a"' in client.get("/club/").content.decode()


def test_future_membership_is_listed_apart(cast: Cast) -> None:
    Membership.objects.filter(athlete=cast.team_mate).update(started_on=today() + timedelta(days=3))
    page = cast.client_of(Role.COACH).get(f"/squads/{cast.squad.pk}/").context["page"]
    assert [row.athlete for row in page.others] == [cast.team_mate]
