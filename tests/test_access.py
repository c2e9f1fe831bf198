"""No one in where they don't belong: every address, as every role, by GET, POST and htmx."""

from __future__ import annotations

from collections.abc import Iterator
from copy import deepcopy

import pytest
from django.conf import settings
from django.db import transaction
from django.http import HttpResponseBase
from django.shortcuts import resolve_url
from django.test import Client
from django.urls import URLPattern, URLResolver, get_resolver, reverse

from tests.access import ROLES, whole_table
from tests.cast import Cast, Role

TABLE = whole_table()


def addresses(resolver: URLResolver, prefix: str = "") -> Iterator[tuple[str, URLPattern]]:
    """Every address of the project, with its name in full."""
    for entry in resolver.url_patterns:
        if isinstance(entry, URLResolver):
            inner = f"{prefix}{entry.namespace}:" if entry.namespace else prefix
            yield from addresses(entry, inner)
        else:
            yield f"{prefix}{entry.name}", entry


ADDRESSES = dict(addresses(get_resolver()))


def test_addresses_have_names_of_their_own() -> None:
    names = [name for name, _ in addresses(get_resolver())]
    assert sorted(names) == sorted(set(names))
    assert [name for name in names if name.endswith("None")] == []


@pytest.mark.parametrize("name", sorted(ADDRESSES))
def test_view_has_one_gate(name: str) -> None:
    assert getattr(ADDRESSES[name].callback, "access", None), f"{name} is neither gated nor marked open"


def test_table_holds_every_address_and_no_other() -> None:
    assert sorted(TABLE) == sorted(ADDRESSES)


@pytest.mark.django_db
@pytest.mark.parametrize("name", sorted(set(TABLE) & set(ADDRESSES)))
def test_answers_are_as_reviewed(name: str, cast: Cast) -> None:
    row = TABLE[name]
    url = reverse(name, kwargs=row.args(cast))
    got = {(shape, role): word for role in ROLES for shape, word in try_as(cast, role, url)}
    expected = row.expected()
    wrong = {
        f"{shape} as {role}": f"{got[shape, role]}, reviewed as {expected[shape, role]}"
        for shape, role in got
        if got[shape, role] != expected[shape, role]
    }
    assert wrong == {}, url


def try_as(cast: Cast, role: Role, url: str) -> Iterator[tuple[str, str]]:
    client = cast.client_of(role)
    yield "GET", outcome(attempt(client, "get", url))
    yield "POST", outcome(attempt(client, "post", url))
    yield "htmx", outcome(attempt(client, "get", url, **{"HX-Request": "true"}))


def attempt(client: Client, method: str, url: str, **headers: str) -> HttpResponseBase:
    """What is written is taken back, here and in the browser's cookies: the next attempt finds all as it was."""
    cookies = deepcopy(client.cookies)
    with transaction.atomic():
        response: HttpResponseBase = getattr(client, method)(url, headers=headers)
        transaction.set_rollback(True)
    client.cookies = cookies
    return response


def outcome(response: HttpResponseBase) -> str:
    target = response.headers.get("Location") or response.headers.get("HX-Redirect") or ""
    to_login = target.split("?")[0] == resolve_url(settings.LOGIN_URL)
    return "login" if to_login else str(response.status_code)
