"""Who works for the club: accounts, roles, squads, leaving."""

from __future__ import annotations

import pytest
from django.core.exceptions import ValidationError

from coachhub.people.access import staff_actor
from coachhub.people.actions import add_staff, archive_staff, edit_club, edit_staff, set_password
from coachhub.people.models import Club, Staff, StaffRole, User
from tests.cast import Cast, Role

LONG = "seven herons over the weir"


def new_coach(cast: Cast, **values: object) -> Staff:
    given: dict[str, object] = {
        "name": "Tova Reef",
        "role": StaffRole.COACH,
        "username": "tova",
        "email": "tova@CLUB.example",
        "password": LONG,
        "squads": [cast.squad],
    }
    return add_staff(actor=cast.actor_of(Role.OWNER), **given | values)  # type: ignore[arg-type]


def test_added_coach_is_an_actor_of_the_squad(cast: Cast) -> None:
    actor = staff_actor(new_coach(cast).user)
    assert actor is not None
    assert (actor.kind.value, actor.squad_ids, actor.name) == ("coach", frozenset([cast.squad.pk]), "Tova Reef")


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("password", "too short 1234"),
        ("password", "tova@club.example"),
        ("email", "not an address"),
        ("username", "coach"),
        ("username", "with space"),
    ],
)
def test_bad_account_is_refused_and_leaves_nothing(cast: Cast, field: str, value: str) -> None:
    before = User.objects.count()
    with pytest.raises(ValidationError) as caught:
        new_coach(cast, **{field: value})
    assert list(caught.value.message_dict) == [field]
    assert User.objects.count() == before


def test_address_of_someone_else_is_refused_whatever_its_case(cast: Cast) -> None:
    taken = cast.staff[Role.COACH].user.email.upper()
    with pytest.raises(ValidationError):
        new_coach(cast, email=taken)


def test_edit_changes_role_and_squads(cast: Cast) -> None:
    coach = cast.staff[Role.COACH]
    edit_staff(
        actor=cast.actor_of(Role.OWNER),
        staff=coach,
        name="Cato Lind",
        role=StaffRole.HEAD_COACH,
        email="",
        squads=[cast.other_squad],
    )
    actor = cast.actor_of(Role.COACH)
    assert (actor.kind.value, actor.squad_ids) == ("head_coach", frozenset([cast.other_squad.pk]))


def test_last_owner_cannot_go_or_change_role(cast: Cast) -> None:
    owner, actor = cast.staff[Role.OWNER], cast.actor_of(Role.OWNER)
    with pytest.raises(ValidationError):
        archive_staff(actor=actor, staff=owner)
    with pytest.raises(ValidationError):
        edit_staff(actor=actor, staff=owner, name="Maren", role=StaffRole.COACH, email="", squads=[])
    assert cast.actor_of(Role.OWNER).sees_all


def test_owner_may_go_once_there_is_another(cast: Cast) -> None:
    new_coach(cast, role=StaffRole.OWNER)
    archive_staff(actor=cast.actor_of(Role.OWNER), staff=cast.staff[Role.OWNER])
    assert cast.actor_of(Role.OWNER).is_anonymous


def test_archived_coach_is_nobody_at_once(cast: Cast) -> None:
    client = cast.client_of(Role.COACH)
    archive_staff(actor=cast.actor_of(Role.OWNER), staff=cast.staff[Role.COACH])
    assert client.get("/squads/").headers["Location"] == "/login/?next=/squads/"


def test_new_password_ends_open_sessions(cast: Cast) -> None:
    client = cast.client_of(Role.COACH)
    set_password(actor=cast.actor_of(Role.OWNER), staff=cast.staff[Role.COACH], password=LONG)
    assert client.get("/squads/").status_code == 302


@pytest.mark.parametrize(
    "password",
    [
        "only fourteen!",
        "1q2w3e4r5t6y7u8i",  # on the list as it is
        "1Q2W3E4R5T6Y7U8I",
        "passwordpassword",
        "monkeymonkeymonkey",
        "superman!1234567",
        "aaaaaaaaaaaaaaaaaa",
        "123412341234123412341234",
        "98765432101234567890",
    ],
)
def test_weak_password_is_refused(cast: Cast, password: str) -> None:
    with pytest.raises(ValidationError) as caught:
        set_password(actor=cast.actor_of(Role.OWNER), staff=cast.staff[Role.COACH], password=password)
    assert list(caught.value.message_dict) == ["password"]


def test_club_is_changed(cast: Cast) -> None:
    edit_club(
        actor=cast.actor_of(Role.OWNER),
        club=cast.club,
        name="Tarn Valley HC",
        unit="lb",
        time_zone="Europe/Oslo",
        accent="#1d3f7a",
        gap_days=21,
    )
    assert Club.objects.values_list("name", "unit", "time_zone", "accent", "gap_days").get() == (
        "Tarn Valley HC",
        "lb",
        "Europe/Oslo",
        "#1d3f7a",
        21,
    )


def test_change_is_logged_without_names(cast: Cast, caplog: pytest.LogCaptureFixture) -> None:
    with caplog.at_level("INFO", "coachhub.audit"):
        set_password(actor=cast.actor_of(Role.OWNER), staff=cast.staff[Role.COACH], password=LONG)
    owner, coach = cast.staff[Role.OWNER], cast.staff[Role.COACH]
    assert caplog.messages == [f"owner user {owner.user_id}: set the password of staff {coach.pk}"]
