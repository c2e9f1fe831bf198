"""Words at the edge: nobody has a squad, nothing is chosen."""

from __future__ import annotations

import pytest

from coachhub.base.tables import csv_bytes
from coachhub.people.models import Membership
from tests.cast import Cast, Role
from tests.desk.test_roster import chosen, upload
from tests.factories import SquadFactory

LONG = "seven herons over the weir"


def test_athlete_in_no_squad_is_said_to_be_in_none(cast: Cast) -> None:
    Membership.objects.filter(athlete=cast.athlete).delete()
    page = cast.client_of(Role.OWNER).get(f"/athletes/{cast.athlete.pk}/").content.decode()
    assert "in no squad today</p>" in page


def test_availability_has_a_word_for_nothing_chosen(cast: Cast) -> None:
    page = cast.client_of(Role.COACH).get(f"/athletes/{cast.athlete.pk}/availability/").content.decode()
    assert ('<option value="">choose</option>' in page, "-----" in page) == (True, False)


@pytest.mark.parametrize(("role", "has_squad", "is_told"), [("coach", 0, 1), ("coach", 1, 0), ("owner", 0, 0)])
def test_owner_is_told_of_staff_without_squad(cast: Cast, role: str, has_squad: bool, is_told: bool) -> None:
    squads = [cast.squad.pk] if has_squad else []
    data = {"name": "Ada Fell", "role": role, "squads": squads, "username": "ada", "email": "", "password": LONG}
    page = cast.client_of(Role.OWNER).post("/staff/add/", data, follow=True).content.decode()
    assert ("Ada Fell can log in now." in page, "Ada Fell has no squad yet" in page) == (True, bool(is_told))


@pytest.mark.parametrize(
    ("role", "needed"),
    [
        (Role.OWNER, ["given name", "family name", "date of birth"]),
        (Role.COACH, ["given name", "family name", "date of birth", "squad"]),
    ],
)
def test_import_says_what_the_role_needs(cast: Cast, role: Role, needed: list[str]) -> None:
    page = cast.client_of(role).get("/athletes/import/").context["page"]
    assert ([str(label) for label in page.needed], "squad" in page.others) == (needed, role is Role.OWNER)


@pytest.mark.parametrize(("role", "more", "is_chosen"), [("coach", 0, True), ("coach", 1, False), ("owner", 0, False)])
def test_only_squad_of_a_coach_is_chosen_for_rows_that_name_none(
    cast: Cast, role: str, more: int, is_chosen: bool
) -> None:
    cast.staff[Role.COACH].squads.add(*SquadFactory.create_batch(more))
    client = cast.client_of(role)
    columns = upload(client, csv_bytes([["First name", "Surname", "DOB"], ["Runa", "Beck", "30/04/2012"]]))

    page = client.get(columns.headers["Location"])

    assert chosen(page)["squad"] == (str(cast.squad.pk) if is_chosen else "")
