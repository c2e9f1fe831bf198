"""The athlete's calendar on the phone."""

from __future__ import annotations

import re
from datetime import timedelta

from coachhub.base.clock import today
from coachhub.season.models import Happening
from tests.cast import Cast, Role
from tests.season.dates import training

SPORT = {"kind": "sport", "name": "Judo", "from_on": today().isoformat(), "weekdays": [str(today().weekday())]}


def test_athlete_reads_the_squads_dates_and_their_own(cast: Cast) -> None:
    training(cast.squad, name="Passing", weekdays=127, from_on=today(), to_on=today() + timedelta(days=1))
    training(cast.other_squad, name="Not theirs", weekdays=127, from_on=today())
    for athlete, name in ((cast.athlete, "Judo"), (cast.team_mate, "Rowing")):
        Happening.objects.create(athlete=athlete, kind="sport", name=name, from_on=today(), to_on=today())

    page = cast.client_of(Role.ATHLETE).get("/g/dates/").content.decode()

    assert re.findall(r"Training: \w+|Other sport: \w+|Not theirs", page) == [
        "Other sport: Judo",
        "Training: Passing",
        "Training: Passing",
        "Other sport: Judo",
    ]


def test_other_sport_is_entered_changed_and_removed(cast: Cast) -> None:
    phone = cast.client_of(Role.ATHLETE)

    for _ in range(2):
        phone.post("/g/dates/add", SPORT)
    row = Happening.objects.get()
    phone.post(f"/g/dates/{row.pk}", SPORT | {"name": "Karate", "starts_at": "17:00"})

    row.refresh_from_db()
    assert (row.athlete, row.name, row.starts_at is not None) == (cast.athlete, "Karate", True)
    assert phone.post(f"/g/dates/{row.pk}/remove").headers["Location"] == "/g/dates/"
    assert Happening.objects.count() == 0


def test_wrong_date_is_said_and_the_rest_kept(cast: Cast) -> None:
    answer = cast.client_of(Role.ATHLETE).post("/g/dates/add", SPORT | {"from_on": "31.2.2026"})

    assert (answer.status_code, list(answer.context["form"].errors)) == (422, ["from_on"])
    assert 'value="Judo"' in answer.content.decode()


def test_phone_gets_an_address_for_its_own_calendar(cast: Cast) -> None:
    phone = cast.client_of(Role.ATHLETE)
    Happening.objects.create(athlete=cast.athlete, kind="sport", name="Judo", from_on=today(), to_on=today())

    (address,) = re.findall(r'class="address">http://testserver(.*?)<', phone.post("/g/dates/address").content.decode())

    assert b"SUMMARY:Other sport: Judo" in cast.client_of(Role.ANONYMOUS).get(address).content
    phone.post("/g/dates/address", {"revoke": ""})
    assert cast.client_of(Role.ANONYMOUS).get(address).status_code == 404
