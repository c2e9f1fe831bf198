from __future__ import annotations

import pytest
from django.db import connection
from django.test import Client


def test_alive_answers_without_the_database(client: Client) -> None:
    response = client.get("/healthz")

    assert (response.status_code, response.content) == (200, b"ok\n")


@pytest.mark.django_db
def test_ready_answers_with_the_database(client: Client) -> None:
    response = client.get("/readyz")

    assert (response.status_code, response.content) == (200, b"ok\n")


@pytest.mark.django_db(transaction=True)
def test_ready_says_when_the_database_is_out_of_reach(client: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    connection.close()
    key = "dbname" if connection.vendor == "postgresql" else "database"
    parameters = connection.get_connection_params() | {key: "/nowhere/at/all"}
    monkeypatch.setattr(connection, "get_connection_params", lambda: parameters)

    response = client.get("/readyz")

    assert (response.status_code, response.content) == (503, b"database out of reach\n")
