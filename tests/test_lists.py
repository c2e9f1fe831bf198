"""Every list with no row, with one, with thirty and with three hundred."""

from __future__ import annotations

import re
from dataclasses import dataclass
from html import unescape

import pytest
from django.db import connection, transaction
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from tests.access import spread
from tests.access import whole_table as addresses
from tests.cast import Cast
from tests.lists import Listing, names, whole_table

TABLE = whole_table()
# Nouns that a page counts with.
MANY_WORDS = (
    "athletes|bars|cards|children|copies|days|exercises|guardians|lines|members|minutes|notes|questions|rounds|rows"
    "|sessions|sets|squads|venues|weeks"
)
# Addresses that show no list of the club's rows, by the reason.
NO_LIST = {
    "fields of one row, or of one that is new": """
        account_change_password account_login desk:absence_add desk:athlete_add desk:athlete_edit desk:availability
        desk:block desk:club desk:consent_give desk:exercise_add desk:exercise_edit desk:floor_guest desk:guardian_add
        desk:guardian_edit desk:happening_add desk:happening_change desk:line desk:line_add desk:match_add
        desk:match_edit desk:own_athlete_add desk:own_athlete_save desk:own_date_add desk:own_item desk:own_squad_add
        desk:own_squad_save desk:part desk:phase_add desk:phase_edit desk:plan_add desk:plan_copy desk:plan_edit
        desk:restriction_add desk:restriction_except desk:session_add desk:session_copy desk:session_edit
        desk:slot_add desk:slot_change desk:squad_add desk:squad_edit desk:squad_join desk:staff_add desk:staff_edit
        desk:staff_password desk:venue_add desk:venue_edit desk:venue_series gym:absence gym:date_add gym:date_edit
    """,
    "asks once more, or for a day, before something ends or comes back": """
        account_logout desk:assignment_cancel desk:athlete_archive desk:athlete_return desk:consent_withdraw
        desk:guardian_remove desk:happening_off desk:match_off desk:own_item_keep desk:pain_clear desk:phase_remove
        desk:plan_archive desk:red_flag_clear desk:restriction_keep desk:restriction_lift desk:slot_off
        desk:squad_leave desk:staff_archive
    """,
    "one row, looked at": """
        desk:athlete_feed desk:exercise_file desk:happening desk:slot desk:squad_feed gym:feed gym:hurts gym:told
        paper:card_pdf
    """,
    "a part of one card or session, as long as the plan writes it": """
        desk:door desk:dose_check desk:line_options desk:own_dose_check gym:end gym:round
    """,
    "as many rows as the program has of them": "desk:check_rules desk:exercise_media desk:fit_rules",
    "says how many, and names them only in answer to a POST": "desk:squad_codes",
    "asks for a file, or for the days of one": """
        desk:bests_upload desk:roster_match desk:roster_upload desk:season_upload desk:squad_sets
    """,
    "the lines of its CSV in a workbook": """
        desk:bests_xlsx desk:day_xlsx desk:history_xlsx desk:roster_xlsx desk:season_xlsx desk:squad_sets_xlsx
    """,
    "leads elsewhere, or answers a proxy": "front:enrol front:home healthz readyz",
}
ONE_OF_MANY = re.compile(rf"(?<![\d.,×–/-])\b1 ({MANY_WORDS})\b")


@dataclass(frozen=True)
class Answer:
    text: str
    rows: set[str]
    queries: int


def ask(client: Client, url: str, sign: str) -> Answer:
    with CaptureQueriesContext(connection) as asked:
        response = client.get(url)
        body = response.getvalue().decode()
    assert response.status_code == 200, url
    text = unescape(re.sub(r"<[^>]+>", " ", body))
    counted = [query for query in asked if "SAVEPOINT" not in query["sql"]]
    return Answer(" ".join(text.split()), set(re.findall(sign, body)), len(counted))


def pages_of(client: Client, url: str, sign: str) -> list[set[str]]:
    """The rows of each page, by the link that leads on."""
    found, link = [], ""
    while True:
        body = client.get(url + link).getvalue().decode()
        found.append(set(re.findall(sign, body)))
        onward = re.search(r'rel="next" href="(\?[^"]+)"', body)
        if onward is None:
            return found
        link = unescape(onward[1])


def test_every_address_that_people_open_is_in_the_table_or_no_list_for_a_reason() -> None:
    opened = {name for name, row in addresses().items() if "200" in spread(row.get)}
    no_list = [name for those in NO_LIST.values() for name in those.split()]
    in_table = {name.partition(" ")[0] for name in TABLE}
    assert sorted([*in_table, *no_list]) == sorted(opened)


def address_of(cast: Cast, name: str, row: Listing) -> str:
    address, asked = reverse(name.partition(" ")[0], kwargs=row.args(cast)), row.asked(cast)
    return f"{address}?{asked}" if asked else address


def without_rows(cast: Cast, row: Listing, client: Client, url: str) -> tuple[set[str], bool]:
    """The rows that are shown without any, and whether the page says so; all of it undone again."""
    with transaction.atomic():
        row.clear(cast)
        answer = ask(client, url, row.sign)
        transaction.set_rollback(True)
    return answer.rows, row.empty in answer.text


@pytest.mark.parametrize("name", TABLE)
def test_list_is_whole_and_costs_the_same_at_any_length(cast: Cast, name: str) -> None:
    row: Listing = TABLE[name]
    url = address_of(cast, name, row)
    client, at_once = cast.client_of(row.role), row.at_once or row.many
    assert without_rows(cast, row, client, url) == (set(), True)
    row.make(cast, names(0, 1))
    one = ask(client, url, row.sign)
    row.make(cast, names(1, 30))
    thirty = ask(client, url, row.sign)
    pages = [thirty.rows]
    if row.many > 30:
        row.make(cast, names(30, row.many))
        pages = pages_of(client, url, row.sign)
    assert (len(one.rows), ONE_OF_MANY.findall(one.text)) == (1, [])
    assert len(thirty.rows) == min(30, at_once)
    assert (max(map(len, pages)), len(set().union(*pages))) == (at_once, row.of_all or row.many)
    assert one.queries == thirty.queries <= row.most_queries
