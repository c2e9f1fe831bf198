"""Squads, memberships with their days, athletes, availability."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from django.core.exceptions import ValidationError

from coachhub.base.actor import Actor, ActorKind
from coachhub.base.clock import now, today
from coachhub.people import queries
from coachhub.people.actions import (
    add_athlete,
    add_squad,
    archive_athlete,
    edit_athlete,
    edit_squad,
    join_squad,
    leave_squad,
    set_availability,
)
from coachhub.people.models import Athlete, AvailabilityStatus, Membership, Squad
from tests.cast import Cast, Role
from tests.factories import AthleteFactory, AvailabilityFactory, MembershipFactory, SquadFactory, days_ago, years_ago


def test_added_squad_is_found_by_its_folded_name(cast: Cast) -> None:
    squad = add_squad(actor=cast.actor_of(Role.OWNER), name=" Frauen Süd ", note="Tuesdays")
    assert (squad.name, squad.search_key) == ("Frauen Süd", "frauen sud")


def test_squad_name_taken_is_refused(cast: Cast) -> None:
    with pytest.raises(ValidationError) as caught:
        edit_squad(actor=cast.actor_of(Role.OWNER), squad=cast.squad, name="Under-18", note="")
    assert list(caught.value.message_dict) == ["name"]


def test_added_athlete_is_in_the_squad_from_today(cast: Cast) -> None:
    athlete = add_athlete(
        actor=cast.actor_of(Role.COACH),
        squad=cast.squad,
        given_name="Sól",
        family_name="Ørn",
        born_on=years_ago(15),
    )
    membership = athlete.memberships.get()
    assert (membership.squad, membership.started_on, membership.ended_on) == (cast.squad, today(), None)
    assert athlete.search_key == "orn sol"


def test_impossible_birthday_is_refused_and_nothing_is_stored(cast: Cast) -> None:
    before = Athlete.objects.count()
    with pytest.raises(ValidationError):
        add_athlete(
            actor=cast.actor_of(Role.COACH),
            squad=cast.squad,
            given_name="A",
            family_name="B",
            born_on=years_ago(200),
        )
    assert Athlete.objects.count() == before


def test_edit_leaves_the_rest_as_it_is(cast: Cast) -> None:
    edit_athlete(actor=cast.actor_of(Role.COACH), athlete=cast.athlete, position="Pivot")
    row = Athlete.objects.get(pk=cast.athlete.pk)
    assert (row.position, row.given_name) == ("Pivot", "Ingrid")


def test_second_membership_on_the_same_day_is_refused(cast: Cast) -> None:
    with pytest.raises(ValidationError) as caught:
        join_squad(actor=cast.actor_of(Role.COACH), athlete=cast.athlete, squad=cast.squad, started_on=today())
    assert caught.value.code == "member"


def test_membership_ends_on_its_last_day_included(cast: Cast) -> None:
    membership = cast.athlete.memberships.get()
    leave_squad(actor=cast.actor_of(Role.COACH), membership=membership, ended_on=today())
    days = [today(), today() + timedelta(days=1)]
    members = [{m.athlete for m in queries.members_on(cast.squad, day)} for day in days]
    assert members == [{cast.athlete, cast.team_mate}, {cast.team_mate}]


def test_last_day_before_the_first_is_refused(cast: Cast) -> None:
    membership = cast.athlete.memberships.get()
    with pytest.raises(ValidationError):
        leave_squad(actor=cast.actor_of(Role.COACH), membership=membership, ended_on=days_ago(101))


def test_athlete_may_come_back_after_leaving(cast: Cast) -> None:
    coach, membership = cast.actor_of(Role.COACH), cast.athlete.memberships.get()
    leave_squad(actor=coach, membership=membership, ended_on=days_ago(10))
    join_squad(actor=coach, athlete=cast.athlete, squad=cast.squad, started_on=days_ago(9))
    assert cast.athlete.memberships.count() == 2


def test_coach_stops_seeing_the_athlete_the_day_after(cast: Cast) -> None:
    membership = cast.athlete.memberships.get()
    leave_squad(actor=cast.actor_of(Role.COACH), membership=membership, ended_on=days_ago(1))
    assert list(Athlete.objects.visible_to(cast.actor_of(Role.COACH))) == [cast.team_mate]


def test_athlete_who_leaves_the_club_leaves_every_squad(cast: Cast) -> None:
    MembershipFactory.create(athlete=cast.athlete, started_on=today() + timedelta(days=5))
    archive_athlete(actor=cast.actor_of(Role.OWNER), athlete=cast.athlete)
    assert list(Membership.objects.filter(athlete=cast.athlete).values_list("squad", "ended_on")) == [
        (cast.squad.pk, today())
    ]
    assert not queries.find_athletes(cast.actor_of(Role.OWNER), "moss", None, today()).exists()


def test_newest_availability_of_the_day_counts(cast: Cast) -> None:
    AvailabilityFactory.create(athlete=cast.athlete, status="out", from_on=days_ago(5))
    set_availability(
        actor=cast.actor_of(Role.CLINICIAN),
        athlete=cast.athlete,
        status=AvailabilityStatus.MODIFIED,
        from_on=today(),
        can_do="upper body",
    )
    AvailabilityFactory.create(athlete=cast.athlete, status="full", from_on=today() + timedelta(days=7))
    owner = cast.actor_of(Role.OWNER)
    rows: dict[int, Any] = {
        days: queries.athlete_in_full(owner, days_ago(days)).get(pk=cast.athlete.pk) for days in (6, 5, 0, -7)
    }
    by_day = {days: row.status for days, row in rows.items()}
    assert by_day == {6: "full", 5: "out", 0: "modified", -7: "full"}


@pytest.mark.django_db
def test_search_finds_every_word_without_accents_and_case() -> None:
    squad = SquadFactory.create()
    wanted = AthleteFactory.create(given_name="Åsa", family_name="Lindqvist", squad=squad)
    AthleteFactory.create(given_name="Åsa", family_name="Berg", squad=squad)
    owner = Actor(ActorKind.OWNER)
    for typed in ("asa lind", "LIND ÅSA", "qvist"):
        assert list(queries.find_athletes(owner, typed, None, today())) == [wanted]
    assert list(queries.find_athletes(owner, "100%", None, today())) == []


def test_squad_sizes_count_live_members_of_the_day(cast: Cast) -> None:
    MembershipFactory.create(squad=cast.squad, ended_on=days_ago(1))
    MembershipFactory.create(squad=cast.squad, athlete__archived_at=now())
    MembershipFactory.create(squad=cast.squad, started_on=today() + timedelta(days=1))
    rows: list[Any] = list(queries.squads_with_size(cast.actor_of(Role.OWNER), today()))
    assert {row.name: row.size for row in rows} == {"Seniors": 2, "Under-18": 1}


def test_squads_are_seen_by_those_who_have_them(cast: Cast) -> None:
    seen = {role: [s.name for s in Squad.objects.visible_to(cast.actor_of(role))] for role in Role}
    seniors = (Role.COACH, Role.ASSISTANT, Role.CLINICIAN, Role.HEAD_COACH)
    assert seen == {
        **{role: [] for role in Role},
        **{role: ["Seniors"] for role in seniors},
        Role.OTHER_COACH: ["Under-18"],
        Role.OWNER: ["Seniors", "Under-18"],
    }


def test_archived_squad_gives_no_access(cast: Cast) -> None:
    Squad.objects.filter(pk=cast.squad.pk).update(archived_at=now())
    assert cast.actor_of(Role.COACH).squad_ids == frozenset()
