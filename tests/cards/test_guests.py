"""A guest trains today: one athlete, one card, nothing lifted that was written for others."""

from __future__ import annotations

from datetime import timedelta
from uuid import uuid4

import pytest
from django.core.exceptions import PermissionDenied

from coachhub.base.clock import today
from coachhub.cards.actions import restrict_athlete
from coachhub.cards.actions.door import change_at_door
from coachhub.cards.actions.guests import welcome_guest
from coachhub.cards.models import Card
from coachhub.coaching.door import DoorStep
from coachhub.people.models import Athlete, Membership
from tests.cards.conftest import Evening
from tests.cast import Role
from tests.factories import AthleteFactory, years_ago


def welcome(evening: Evening, role: Role = Role.COACH, family_name: str = "Quill") -> Card:
    return welcome_guest(
        actor=evening.cast.actor_of(role),
        assignment=evening.assignment,
        given_name="Sorrel",
        family_name=family_name,
        born_on=years_ago(20),
    )


def test_guest_finds_the_load_where_others_have_one_written(evening: Evening) -> None:
    guest = welcome(evening).athlete

    line = evening.line(evening.squat, guest)
    assert (line.load, line.load_rule, [step.code for step in line.trace]) == (
        None,
        "find",
        ["guest_load", "no_history"],
    )
    assert evening.line(evening.squat).load is not None


def test_guest_still_finds_the_load_when_the_card_is_read_again(evening: Evening) -> None:
    guest = welcome(evening).athlete
    restrict_athlete(
        actor=evening.coach, athlete=guest, kind="exercise", exercise=evening.hinge.exercise, on_word_of="Dr Alder",
        starts_on=today(),
    )  # fmt: skip

    assert evening.line(evening.hinge, guest).is_dropped
    assert evening.line(evening.squat, guest).load is None


def test_guest_belongs_to_the_squad_for_the_day(evening: Evening) -> None:
    guest = welcome(evening).athlete

    mine = Membership.objects.get(athlete=guest)
    assert (mine.squad, mine.started_on, mine.ended_on, guest.level) == (
        evening.cast.squad,
        today(),
        today(),
        "novice",
    )
    assert Athlete.objects.visible_to(evening.coach).filter(pk=guest.pk).exists()


def test_guest_sent_twice_is_one_athlete_with_one_card(evening: Evening) -> None:
    assert welcome(evening) == welcome(evening)
    assert Membership.objects.filter(athlete__family_name="Quill").count() == 1


def test_guest_whom_the_club_knows_keeps_what_restricts_them(evening: Evening) -> None:
    known = AthleteFactory.create(
        given_name="Sórrel", family_name="Quill", born_on=years_ago(20), squad=evening.cast.other_squad
    )
    restrict_athlete(
        actor=evening.cast.actor_of(Role.OWNER), athlete=known, kind="region", region="knee", on_word_of="Dr Alder",
        starts_on=today(),
    )  # fmt: skip

    card = welcome(evening)

    assert (card.athlete, evening.line(evening.squat, known).name) == (known, "Goblet squat")


def test_member_without_a_card_is_no_guest(evening: Evening) -> None:
    AthleteFactory.create(given_name="Sorrel", family_name="Quill", born_on=years_ago(20), squad=evening.cast.squad)

    card = welcome(evening)

    assert (card.is_guest, evening.line(evening.squat, card.athlete).load is not None) == (False, True)


def test_guest_gets_the_session_as_it_was_changed_at_the_door(evening: Evening) -> None:
    block = evening.sheet().blocks[1]
    steps = [DoorStep("block", block.key, label="B")]
    change_at_door(actor=evening.coach, assignment=evening.assignment, steps=steps, uuid=uuid4())

    guest = welcome(evening).athlete

    assert evening.line(evening.hinge, guest).is_dropped


@pytest.mark.parametrize("role", [Role.OTHER_COACH, Role.ASSISTANT, Role.CLINICIAN, Role.HEAD_COACH, Role.ATHLETE])
def test_only_the_squads_coach_welcomes(evening: Evening, role: Role) -> None:
    with pytest.raises(PermissionDenied):
        welcome(evening, role)


def test_guest_comes_on_the_day_only(evening: Evening) -> None:
    evening.assignment.on_date = today() + timedelta(days=1)
    evening.assignment.save()

    with pytest.raises(PermissionDenied):
        welcome(evening)
