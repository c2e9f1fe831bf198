"""The brake counts what it is told, each key for itself."""

from __future__ import annotations

import pytest
from django.db import connection
from django.test import RequestFactory

from coachhub.front.brake import Brake, address_of

BRAKE = Brake("test", tries=3, window_s=60)


@pytest.mark.django_db
def test_brake_is_on_after_its_tries_for_that_key_only() -> None:
    taken = [BRAKE.take("here") is not None for _ in range(4)]
    assert taken == [True, True, True, False]
    assert (BRAKE.is_on("here"), BRAKE.is_on("there")) == (True, False)


@pytest.mark.django_db
def test_slot_given_back_is_free_again() -> None:
    slots = [BRAKE.take("here") for _ in range(3)]
    assert slots[1] is not None
    BRAKE.give_back(slots[1])
    assert BRAKE.take("here") == slots[1]


@pytest.mark.django_db
def test_slot_is_free_after_the_window() -> None:
    for _ in range(3):
        BRAKE.take("here")
    with connection.cursor() as cursor:
        cursor.execute("UPDATE coachhub_cache SET expires = '2020-01-01 00:00:00'")
    assert not BRAKE.is_on("here")
    assert BRAKE.take("here") is not None


@pytest.mark.parametrize(
    ("seen", "counted"),
    [
        ("192.0.2.7", "192.0.2.7"),
        ("2001:db8:1:2:aaaa::1", "2001:db8:1:2::/64"),
        ("2001:db8:1:2:bbbb::1", "2001:db8:1:2::/64"),
    ],
)
def test_address_is_that_of_the_line(seen: str, counted: str) -> None:
    assert address_of(RequestFactory().get("/", REMOTE_ADDR=seen)) == counted
