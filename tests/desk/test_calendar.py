"""The calendar at the desk: month and week, adding, changing, calling off; addresses for calendar programs."""

from __future__ import annotations

import re
from datetime import date, timedelta
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test.utils import CaptureQueriesContext

from coachhub.base.clock import today
from coachhub.season.models import FeedLink, GymSlot, Happening, MatchDay, MatchMinutes
from tests.cast import Cast, Role
from tests.season.calendars import event
from tests.season.dates import MONDAY, slot, training

DECEMBER = "/season/?on=2026-12-10"
# Python's and HTML's own form of a day.
ISO = MONDAY.isoformat()


def entries(page: str) -> list[str]:
    """The words of the dates' links, in order."""
    found = re.findall(r'<a href="/season/\w+/\d[^"]*">(.*?)</a>', page, re.DOTALL)
    return [" ".join(re.sub(r"<[^>]+>", "", words).split()) for words in found]


@pytest.mark.parametrize("htmx", [False, True])
def test_month_is_a_table_by_weekday(cast: Cast, htmx: bool) -> None:
    training(cast.squad, weekdays=1, to_on=MONDAY + timedelta(days=7))
    headers = {"HX-Request": "true"} if htmx else {}

    page = cast.client_of(Role.COACH).get(DECEMBER, headers=headers).content.decode()

    assert re.findall(r'<th scope="col">(.*?)</th>', page)[:2] == ["Monday", "Tuesday"]
    assert entries(page) == ["18:00 Training", "18:00 Training"]
    assert ("<html" in page, "December 2026" in page) == (not htmx, True)


def test_week_lists_all_seven_days(cast: Cast) -> None:
    slot(cast)

    page = cast.client_of(Role.ASSISTANT).get(f"{DECEMBER}&view=week").content.decode()

    assert "Week 50: 7 Dec – 13 Dec 2026" in page
    assert (page.count("<h3>"), entries(page)) == (7, ["17:00 Gym: Mill Lane gym"])


def test_head_coach_finds_matches_and_trainings_only(cast: Cast) -> None:
    training(cast.squad, weekdays=1, from_on=date(2026, 12, 7), to_on=date(2026, 12, 7))
    slot(cast)
    MatchDay.objects.create(squad=cast.squad, on_date=date(2026, 12, 12), opponent="Fen Gate", is_home=False)

    page = cast.client_of(Role.HEAD_COACH).get(DECEMBER).content.decode()

    assert entries(page) == ["18:00 Training", "Match: Fen Gate, away"]
    assert "/add/" not in page


@pytest.mark.parametrize("query", ["on=0001-01-01", "on=9999-12-31", "on=x", "view=x&squad=x", "on=2026-02-30"])
def test_odd_address_shows_today(cast: Cast, query: str) -> None:
    page = cast.client_of(Role.COACH).get(f"/season/?{query}").context["page"]

    assert (page.on, page.view) == (today(), "month")


def test_calendar_takes_the_same_queries_for_one_row_and_thirty(cast: Cast) -> None:
    client = cast.client_of(Role.COACH)

    def queries() -> int:
        with CaptureQueriesContext(connection) as asked:
            client.get(DECEMBER)
        return len(asked)

    training(cast.squad)
    slot(cast)
    one = queries()
    for number in range(30):
        training(cast.squad, name=f"Training {number}")
        slot(cast, from_on=MONDAY - timedelta(days=number))

    assert (queries(), one <= 10) == (one, True)


def test_series_is_added_and_found_again(cast: Cast) -> None:
    data = {"squad": cast.squad.pk, "kind": "training", "from_on": ISO, "weekdays": ["0", "2"], "starts_at": "18:30"}

    answer = cast.client_of(Role.COACH).post("/season/dates/add/", data, follow=True)

    row = Happening.objects.get()
    assert (row.weekdays, row.to_on, row.every_weeks) == (5, None, 1)
    assert answer.redirect_chain == [(f"/season/?squad={cast.squad.pk}&on={ISO}", 302)]
    assert entries(answer.content.decode())[:1] == ["18:30 Training"]


@pytest.mark.parametrize(
    ("data", "field", "said"),
    [
        ({"from_on": ""}, "from_on", "This field is required."),
        ({"to_on": "2026-11-01"}, "to_on", "The last day cannot be before the first."),
        ({"to_on": "2028-11-01"}, "to_on", "That is longer than a year. Please check the dates."),
        ({"to_on": "2026-12-01", "weekdays": ["4"]}, "to_on", "None of these weekdays lies between the two days."),
        ({"minutes": "3"}, "minutes", "Write a whole number from 5 to 1440."),
        ({"kind": "sport"}, "kind", "Select a valid choice. sport is not one of the available choices."),
    ],
)
def test_wrong_field_is_said_beside_it_and_the_rest_is_kept(
    cast: Cast, data: dict[str, Any], field: str, said: str
) -> None:
    sent = {"squad": cast.squad.pk, "kind": "test", "from_on": ISO, "name": "Jumps"} | data

    answer = cast.client_of(Role.COACH).post("/season/dates/add/", sent)

    assert (answer.status_code, answer.context["form"].errors[field]) == (422, [said])
    assert 'value="Jumps"' in answer.content.decode()


def test_other_squad_cannot_be_chosen(cast: Cast) -> None:
    data = {"squad": cast.other_squad.pk, "kind": "test", "from_on": ISO}

    answer = cast.client_of(Role.COACH).post("/season/dates/add/", data)

    assert (answer.status_code, Happening.objects.count()) == (422, 0)


def test_slot_moves_from_a_day_on(cast: Cast) -> None:
    row, on = slot(cast), "2026-12-08"
    data = {"venue": cast.venue.pk, "weekday": "1", "starts_at": "16:00", "minutes": "60"}
    client, address = cast.client_of(Role.COACH), f"/season/slots/{row.pk}/{on}/from/"
    assert 'value="17:00"' in client.get(address).content.decode()

    client.post(address, data)
    twice = client.post(address, data, follow=True)

    assert [(one.from_on.day, one.starts_at.hour) for one in GymSlot.objects.order_by("pk")] == [(30, 17), (8, 16)]
    assert "This day is no longer in the series." in twice.content.decode()


def test_one_day_is_called_off_and_shown_so(cast: Cast) -> None:
    row = training(cast.squad)

    answer = cast.client_of(Role.COACH).post(
        f"/season/dates/{row.pk}/2026-12-07/off/", {"scope": "one", "how": "off"}, follow=True
    )

    assert re.findall(r"<del>(.*?)</del>.*?<b>(.*?)</b>", answer.content.decode(), re.DOTALL) == [
        ("Training", "called off")
    ]


@pytest.mark.parametrize("on", ["2026-12-08", "2026-11-23", "x", "9999-12-31"])
def test_day_that_the_series_does_not_have_is_not_found(cast: Cast, on: str) -> None:
    row = training(cast.squad, weekdays=1)

    assert cast.client_of(Role.COACH).get(f"/season/dates/{row.pk}/{on}/").status_code == 404


def test_minutes_of_a_match_are_typed_in(cast: Cast) -> None:
    match = MatchDay.objects.create(squad=cast.squad, on_date=today(), opponent="Fen Gate")
    data = {f"athlete_{cast.athlete.pk}": "42", f"athlete_{cast.team_mate.pk}": ""}

    page = cast.client_of(Role.COACH).post(f"/season/matches/{match.pk}/minutes/", data, follow=True).content.decode()

    assert MatchMinutes.objects.get().minutes == 42
    assert re.findall(r'<li>(.*?)<span class="num">(.*?)</span>', page) == [("Ingrid Moss", "42"), ("Petra Vane", "–")]


def test_calendar_file_goes_through_preview_before_it_is_written(cast: Cast) -> None:
    text = "\r\n".join(["BEGIN:VCALENDAR", event("SUMMARY:Fen Gate", start="20261205T150000"), "END:VCALENDAR"])
    client = cast.client_of(Role.COACH)
    sent = {"file": SimpleUploadedFile("matches.ics", text.encode())}
    matched = client.post("/season/import/", sent, follow=True)
    columns = {f"column_{key}": index for key, index in matched.context["form"].initial.items() if index}
    chosen = {name.removeprefix("column_"): value for name, value in columns.items()}
    preview = client.post(
        matched.redirect_chain[-1][0],
        chosen | {"what": "match", "squad": cast.squad.pk, "day_order": "dmy"},
        follow=True,
    )
    assert (preview.context["page"].counts["new"], MatchDay.objects.count()) == (1, 0)

    client.post(preview.redirect_chain[-1][0], {"seen": preview.context["page"].digest})

    assert MatchDay.objects.get().opponent == "Fen Gate"


def test_address_is_shown_once_read_and_taken_back(cast: Cast) -> None:
    training(cast.squad, name="Passing")
    coach, anybody = cast.client_of(Role.COACH), cast.client_of(Role.ANONYMOUS)
    page = f"/squads/{cast.squad.pk}/calendar-address/"

    (address,) = re.findall(r'class="address">http://testserver(.*?)<', coach.post(page).content.decode())
    assert 'class="address"' not in coach.get(page).content.decode()

    read = anybody.get(address)
    told = {name: read.headers[name] for name in ("Content-Type", "Cache-Control", "Referrer-Policy", "X-Robots-Tag")}
    assert told == {
        "Content-Type": "text/calendar; charset=utf-8",
        "Cache-Control": "private, no-cache",
        "Referrer-Policy": "no-referrer",
        "X-Robots-Tag": "noindex, nofollow",
    }
    assert b"SUMMARY:Training: Passing" in read.content
    coach.post(page, {"revoke": ""})
    assert (anybody.get(address).status_code, FeedLink.objects.filter(revoked_at=None).count()) == (404, 0)


def test_address_of_who_has_left_is_dead(cast: Cast) -> None:
    page = f"/athletes/{cast.athlete.pk}/calendar-address/"
    made = cast.client_of(Role.COACH).post(page).content.decode()
    (address,) = re.findall(r'class="address">http://testserver(.*?)<', made)

    cast.client_of(Role.OWNER).post(f"/athletes/{cast.athlete.pk}/archive/")

    assert cast.client_of(Role.ANONYMOUS).get(address).status_code == 404
