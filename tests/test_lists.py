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

from tests.cast import Cast
from tests.lists import Listing, names, shown, whole_table

TABLE = whole_table()
# Nouns that a page counts with.
MANY_WORDS = (
    "athletes|bars|cards|children|copies|days|exercises|guardians|lines|members|minutes|notes|questions|rounds|rows"
    "|sessions|sets|squads|venues|weeks"
)
ONE_OF_MANY = re.compile(rf"(?<![\d.,×–/-])\b1 ({MANY_WORDS})\b")


@dataclass(frozen=True)
class Answer:
    text: str
    rows: set[str]
    queries: int


def ask(client: Client, url: str) -> Answer:
    with CaptureQueriesContext(connection) as asked:
        response = client.get(url)
        body = response.getvalue().decode()
    assert response.status_code == 200, url
    text = unescape(re.sub(r"<[^>]+>", " ", body))
    counted = [query for query in asked if "SAVEPOINT" not in query["sql"]]
    return Answer(" ".join(text.split()), shown(body), len(counted))


def pages_of(client: Client, url: str) -> list[set[str]]:
    """The rows of each page, by the link that leads on."""
    found, link = [], ""
    while True:
        body = client.get(url + link).getvalue().decode()
        found.append(shown(body))
        onward = re.search(r'rel="next" href="(\?[^"]+)"', body)
        if onward is None:
            return found
        link = unescape(onward[1])


def without_rows(cast: Cast, row: Listing, client: Client, url: str) -> tuple[set[str], bool]:
    """The rows that are shown without any, and whether the page says so; all of it undone again."""
    with transaction.atomic():
        row.clear(cast)
        answer = ask(client, url)
        transaction.set_rollback(True)
    return answer.rows, row.empty in answer.text


@pytest.mark.parametrize("name", TABLE)
def test_list_is_whole_and_costs_the_same_at_any_length(cast: Cast, name: str) -> None:
    row: Listing = TABLE[name]
    url = reverse(name, kwargs=row.args(cast)) + (f"?{row.asked}" if row.asked else "")
    client, at_once = cast.client_of(row.role), row.at_once or row.many
    assert without_rows(cast, row, client, url) == (set(), True)
    row.make(cast, names(0, 1))
    one = ask(client, url)
    row.make(cast, names(1, 30))
    thirty = ask(client, url)
    row.make(cast, names(30, row.many))
    pages = pages_of(client, url)
    assert (len(one.rows), ONE_OF_MANY.findall(one.text)) == (1, [])
    assert len(thirty.rows) == min(30, at_once)
    assert (max(map(len, pages)), len(set().union(*pages))) == (at_once, row.of_all or row.many)
    assert one.queries == thirty.queries <= row.most_queries
