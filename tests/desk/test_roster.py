"""Importing and exporting tables, page by page; nothing is written before the last button."""

from __future__ import annotations

import io
import re
from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from coachhub.base.clock import now
from coachhub.base.tables import csv_bytes, read_table, xlsx_bytes
from coachhub.cards.models import KnownBest
from coachhub.people.models import Athlete, Guardian, ImportDraft
from tests.base.hostile import HOSTILE, MEGABYTE
from tests.cast import Cast, Role
from tests.factories import AthleteFactory, KnownBestFactory

UPLOAD, BESTS = "/athletes/import/", "/athletes/bests/import/"
LINES = [
    ["First name", "Surname", "DOB", "Team", "Parent", "Shoe size"],
    ["Runa", "Beck", "30/04/2012", "Seniors", "Bo Beck", "38"],
    ["Odd", "Beck", "31/02/2012", "Seniors", "", "39"],
    ["Ingrid", "Moss", "01/01/2002", "", "", "40"],
]


def upload(client: Client, content: bytes, address: str = UPLOAD, name: str = "squad.csv") -> Any:
    return client.post(address, {"file": SimpleUploadedFile(name, content)})


def chosen(answer: Any) -> dict[str, str]:
    """What the page of columns has filled in by itself."""
    form = answer.context["form"]
    return {bound.html_name: str(bound.value() or "") for bound in form}


def to_preview(client: Client, content: bytes, address: str = UPLOAD) -> Any:
    """Upload, and accept the columns as guessed."""
    columns = upload(client, content, address).headers["Location"]
    preview = client.post(columns, chosen(client.get(columns))).headers["Location"]
    return client.get(preview)


def confirm(client: Client, preview: Any) -> Any:
    seen = re.search(r'name="seen" value="([0-9a-f]{64})"', preview.content.decode())
    assert seen
    return client.post(preview.request["PATH_INFO"], {"seen": seen[1]}, follow=True)


@pytest.mark.parametrize("content", [csv_bytes(LINES), xlsx_bytes(LINES, "x")], ids=["csv", "xlsx"])
def test_upload_match_preview_confirm(cast: Cast, content: bytes) -> None:
    Athlete.objects.filter(pk=cast.athlete.pk).update(born_on="2002-01-01")
    client = cast.client_of(Role.COACH)
    preview = to_preview(client, content)
    assert [(line.number, line.name, line.state) for line in preview.context["page"].lines] == [
        (3, "Odd Beck", "error"),
        (2, "Runa Beck", "new"),
        (4, "Ingrid Moss", "unchanged"),
    ]
    assert "date of birth: there is no day “31/02/2012”" in preview.content.decode()
    assert not Athlete.objects.filter(family_name="Beck").exists()
    done = confirm(client, preview)
    assert "Imported: 1 new, 0 updated, 1 unchanged, 1 left out." in done.content.decode()
    assert list(Athlete.objects.filter(family_name="Beck").values_list("given_name")) == [("Runa",)]
    assert (Guardian.objects.filter(name="Bo Beck").count(), ImportDraft.objects.count()) == (1, 0)


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_file_is_refused_beside_the_field_and_not_kept(cast: Cast, name: str) -> None:
    make, words = HOSTILE[name]
    answer = upload(cast.client_of(Role.COACH), make(), name="squad.xlsx")
    said = "The submitted file is empty." if name == "nothing" else words
    assert (answer.status_code, answer.context["form"].errors["file"]) == (422, [said])
    assert ImportDraft.objects.count() == 0


def test_upload_far_over_the_limit_is_dropped_on_the_way_in(cast: Cast) -> None:
    answer = upload(cast.client_of(Role.COACH), b"a,b\n" * (3 * MEGABYTE))
    assert answer.context["form"].errors["file"] == ["The file is larger than 10 MB."]
    assert answer.wsgi_request.FILES == {}


def test_upload_without_the_token_against_forgery_is_refused(cast: Cast) -> None:
    client = Client(enforce_csrf_checks=True)
    client.force_login(cast.staff[Role.COACH].user)
    assert upload(client, csv_bytes(LINES)).status_code == 403


def test_columns_are_guessed_and_can_be_put_right(cast: Cast) -> None:
    client = cast.client_of(Role.COACH)
    columns = upload(client, csv_bytes(LINES)).headers["Location"]
    page = client.get(columns)
    guessed = {key: value for key, value in chosen(page).items() if value}
    assert guessed == {
        "day_order": "dmy",
        "column_given_name": "0",
        "column_family_name": "1",
        "column_born_on": "2",
        "column_squad": "3",
        "column_guardian_name": "4",
        "squad": str(cast.squad.pk),
    }
    assert "Shoe size (38, 39)" in page.content.decode()
    preview = client.post(columns, {**chosen(page), "column_position": "5"}).headers["Location"]
    assert chosen(client.get(columns))["column_position"] == "5"
    assert "position" in client.get(preview).content.decode()


@pytest.mark.parametrize(
    ("change", "errors"),
    [
        ({"column_born_on": ""}, {"column_born_on": ["This field is required."]}),
        ({"column_position": "0"}, {"column_position": ["Already used for: given name."]}),
        ({"day_order": ""}, {"day_order": ["This field is required."]}),
        ({"column_note": "17"}, {"column_note": ["Select a valid choice. 17 is not one of the available choices."]}),
    ],
)
def test_columns_that_cannot_be_are_refused(cast: Cast, change: dict[str, str], errors: dict[str, list[str]]) -> None:
    client = cast.client_of(Role.COACH)
    columns = upload(client, csv_bytes(LINES)).headers["Location"]
    answer = client.post(columns, chosen(client.get(columns)) | change)
    assert (answer.status_code, answer.context["form"].errors) == (422, errors)


def test_file_without_a_needed_column_says_which(cast: Cast) -> None:
    client = cast.client_of(Role.COACH)
    columns = upload(client, csv_bytes([["name", "colour"], ["Runa", "red"]])).headers["Location"]
    answer = client.post(columns, chosen(client.get(columns)))
    assert list(answer.context["form"].errors) == ["column_given_name", "column_family_name", "column_born_on"]


def test_days_that_could_be_either_are_asked_about(cast: Cast) -> None:
    client = cast.client_of(Role.COACH)
    lines = [LINES[0], ["Runa", "Beck", "03/04/2012", "Seniors", "", ""]]
    columns = upload(client, csv_bytes(lines)).headers["Location"]
    filled = chosen(client.get(columns))
    assert filled["day_order"] == ""
    preview = client.get(client.post(columns, filled | {"day_order": "mdy"}).headers["Location"])
    assert "2012-03-04" in preview.content.decode()


def test_rows_without_a_squad_take_the_one_chosen(cast: Cast) -> None:
    client = cast.client_of(Role.COACH)
    lines = [LINES[0][:3], ["Runa", "Beck", "30/04/2012"]]
    columns = upload(client, csv_bytes(lines)).headers["Location"]
    squads = [str(squad) for squad in client.get(columns).context["form"].fields["squad"].queryset]
    filled = chosen(client.get(columns)) | {"squad": str(cast.squad.pk)}
    confirm(client, client.get(client.post(columns, filled).headers["Location"]))
    assert squads == ["Seniors"]
    assert Athlete.objects.get(family_name="Beck").memberships.get().squad == cast.squad


def test_squad_of_another_coach_cannot_be_chosen(cast: Cast) -> None:
    client = cast.client_of(Role.COACH)
    columns = upload(client, csv_bytes(LINES)).headers["Location"]
    answer = client.post(columns, chosen(client.get(columns)) | {"squad": str(cast.other_squad.pk)})
    assert list(answer.context["form"].errors) == ["squad"]


def test_preview_before_the_columns_leads_to_them(cast: Cast) -> None:
    client = cast.client_of(Role.COACH)
    columns = upload(client, csv_bytes(LINES)).headers["Location"]
    assert client.get(columns.removesuffix("columns/")).headers["Location"] == columns


def test_what_changed_since_the_preview_is_shown_again(cast: Cast) -> None:
    client = cast.client_of(Role.COACH)
    preview = to_preview(client, csv_bytes(LINES))
    AthleteFactory.create(given_name="Runa", family_name="Beck", born_on="2012-04-30", squad=cast.squad)
    again = confirm(client, preview)
    assert "Something has changed in the club meanwhile." in again.content.decode()
    assert Athlete.objects.filter(family_name="Beck").count() == 1


def test_second_press_of_the_button_says_so(cast: Cast) -> None:
    client = cast.client_of(Role.COACH)
    preview = to_preview(client, csv_bytes(LINES))
    confirm(client, preview)
    assert "This upload is no longer here" in confirm(client, preview).content.decode()
    assert Athlete.objects.filter(family_name="Beck").count() == 1


def test_expired_upload_is_not_found_and_writes_nothing(cast: Cast) -> None:
    client = cast.client_of(Role.COACH)
    preview = to_preview(client, csv_bytes(LINES))
    ImportDraft.objects.update(created_at=now() - timedelta(hours=2), expires_at=now() - timedelta(seconds=1))
    assert client.get(preview.request["PATH_INFO"]).status_code == 404
    assert "This upload is no longer here" in confirm(client, preview).content.decode()
    assert not Athlete.objects.filter(family_name="Beck").exists()


def test_cancelled_upload_is_deleted(cast: Cast) -> None:
    client = cast.client_of(Role.COACH)
    columns = upload(client, csv_bytes(LINES)).headers["Location"]
    answer = client.post(columns.replace("columns", "cancel"))
    assert (answer.headers["Location"], ImportDraft.objects.count()) == (UPLOAD, 0)


def test_preview_is_paged_and_takes_as_many_queries_for_thirty_rows(cast: Cast) -> None:
    client, taken = cast.client_of(Role.COACH), []
    for count in (1, 30, 60):
        lines = [LINES[0], *([f"Runa {i}", "Beck", "30/04/2012", "Seniors", "", ""] for i in range(count))]
        preview = to_preview(client, csv_bytes(lines))
        with CaptureQueriesContext(connection) as caught:
            client.get(preview.request["PATH_INFO"])
        taken.append(len(caught))
    assert len(preview.context["page"].lines) == 50
    assert taken[0] == taken[1] == taken[2] <= 15


def test_file_that_says_nothing_new_offers_no_button(cast: Cast) -> None:
    line = ["Ingrid", "Moss", str(cast.athlete.born_on), "Seniors", "", ""]
    page = to_preview(cast.client_of(Role.COACH), csv_bytes([LINES[0], line])).content.decode()
    assert "There is nothing to write." in page
    assert "Import 0 rows" not in page


def test_known_bests_go_the_same_way(cast: Cast) -> None:
    assert cast.exercise.name == "Romanian deadlift"
    lines = [["Name", "Lift", "Weight", "Reps", "Day"], ["Ingrid Moss", "romanian deadlift", "180", "5", "30.4.2024"]]
    client = cast.client_of(Role.COACH)
    columns = upload(client, csv_bytes(lines), BESTS).headers["Location"]
    filled = chosen(client.get(columns)) | {"unit": "lb"}
    confirm(client, client.get(client.post(columns, filled).headers["Location"]))
    best = KnownBest.objects.get()
    assert (best.athlete, best.load_value, best.load_unit, best.reps) == (cast.athlete, Decimal(180), "lb", 5)


def test_bests_far_above_all_known_want_their_tick(cast: Cast) -> None:
    client = cast.client_of(Role.COACH)
    lines = [["athlete", "lift", "load", "date"], ["Ingrid Moss", cast.exercise.name, "375 kg", "2024-04-30"]]
    preview = to_preview(client, csv_bytes(lines), BESTS)
    told = f"Row 2, Ingrid Moss · {cast.exercise.name}: 375 kg is far above all that is known"
    assert told in preview.content.decode()
    assert "Import what is ticked" in preview.content.decode()
    seen = preview.context["page"].digest
    done = client.post(preview.request["PATH_INFO"], {"seen": seen, "sure": ["2", "nonsense"]}, follow=True)
    assert "Imported: 1 new, 0 updated, 0 unchanged, 0 left out." in done.content.decode()
    assert KnownBest.objects.get().load_value == Decimal(375)


@pytest.mark.parametrize("address", ["/athletes/export", "/athletes/bests/export"])
def test_export_is_a_table_that_is_not_kept_by_the_browser(cast: Cast, address: str) -> None:
    KnownBestFactory.create(athlete=cast.athlete)
    client = cast.client_of(Role.COACH)
    tables = []
    for ending in ("csv", "xlsx"):
        answer = client.get(f"{address}.{ending}")
        assert answer.headers["Content-Disposition"].endswith(f'.{ending}"')
        assert "no-store" in answer.headers["Cache-Control"]
        tables.append([row.cells for row in read_table(io.BytesIO(answer.content)).rows])
    assert tables[0] == tables[1]
    assert "Ingrid" in tables[0][0]


def test_export_of_one_squad_only_of_those_seen(cast: Cast) -> None:
    client = cast.client_of(Role.OWNER)
    csv = client.get(f"/athletes/export.csv?squad={cast.other_squad.pk}").content.decode()
    assert ("Juno" in csv, "Ingrid" in csv) == (True, False)
    assert cast.client_of(Role.COACH).get(f"/athletes/export.csv?squad={cast.other_squad.pk}").status_code == 404
    assert client.get("/athletes/export.csv?squad=9999999999999999999999").status_code == 404
