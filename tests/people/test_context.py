"""The top of every page: the club's name, and links that lead to no refusal."""

from __future__ import annotations

import pytest
from django.test import Client

from coachhub.people.context import ENTRIES, nav_for
from tests.cast import Cast, Role

WRITING = ["Today", "Waiting", "Calendar", "Plans", "Squads", "Athletes", "Library", "Venues"]


@pytest.mark.parametrize(
    ("role", "labels"),
    [
        (Role.OWNER, [*WRITING, "Staff", "Club"]),
        (Role.COACH, WRITING),
        (Role.ATHLETE, []),
        (Role.GUARDIAN, []),
        (Role.ANONYMOUS, []),
        (Role.OUTSIDER, []),
    ],
)
def test_nav_has_what_the_role_may_open(cast: Cast, role: Role, labels: list[str]) -> None:
    assert [str(item.label) for item in nav_for(cast.actor_of(role), "/")] == labels


@pytest.mark.parametrize("role", [Role.OWNER, Role.COACH, Role.ASSISTANT, Role.CLINICIAN, Role.HEAD_COACH])
def test_every_link_of_the_nav_opens(cast: Cast, role: Role) -> None:
    client = cast.client_of(role)
    answers = {item.url: client.get(item.url).status_code for item in nav_for(cast.actor_of(role), "/")}
    assert answers == dict.fromkeys(answers, 200)
    assert len(answers) <= len(ENTRIES)


def test_nav_marks_where_one_is(cast: Cast) -> None:
    items = nav_for(cast.actor_of(Role.COACH), f"/squads/{cast.squad.pk}/")
    assert [item.url for item in items if item.is_current] == ["/squads/"]


@pytest.mark.django_db
def test_page_before_set_up_has_a_name() -> None:
    assert '<a class="club" href="/">coachhub</a>' in Client().get("/login/").content.decode()
