"""Own activation work is written, ordered, ended; saved as a set and given to several."""

from __future__ import annotations

from typing import Any

import pytest
from django.core.exceptions import PermissionDenied, ValidationError

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.coaching.notation import parse
from coachhub.plans import actions_own
from coachhub.plans.actions_own import OnListError, Whose
from coachhub.plans.models import OwnItem
from coachhub.plans.queries_own import listed_for, listed_for_squad, own_reviews_due, sets_in_use
from tests.cast import Cast, Role
from tests.factories import AthleteFactory, ExerciseFactory, OwnItemFactory, OwnSetFactory, OwnSetItemFactory, days_ago

pytestmark = pytest.mark.django_db


@pytest.fixture
def coach(cast: Cast) -> Actor:
    return cast.actor_of(Role.COACH)


def values(name: str, **changed: Any) -> dict[str, Any]:
    plain: dict[str, Any] = {
        "exercise": ExerciseFactory.create(name=name, segment="activation"),
        "dose": parse("2 x 12/side"),
        "sets": 2,
        "goal": "",
        "from_on": today(),
        "review_on": None,
        "weekdays": [],
    }
    return plain | changed


def listed(cast: Cast) -> list[str]:
    return [row.exercise.name for row in listed_for(cast.athlete, [cast.squad.pk])]


def test_new_item_is_the_least_important_and_steps_change_the_order(cast: Cast, coach: Actor) -> None:
    whose = Whose(athlete=cast.athlete)
    rows = [actions_own.add_item(actor=coach, whose=whose, **values(name)) for name in ("Bridge", "Clamshell")]
    assert listed(cast) == ["Bridge", "Clamshell"]
    assert actions_own.move_item(actor=coach, item=rows[1], step=-1)
    assert listed(cast) == ["Clamshell", "Bridge"]
    assert not actions_own.move_item(actor=coach, item=OwnItem.objects.get(pk=rows[1].pk), step=-1)


def test_exercise_stands_once_on_a_list_however_often_it_is_sent(cast: Cast, coach: Actor) -> None:
    sent, whose = values("Bridge"), Whose(athlete=cast.athlete)
    actions_own.add_item(actor=coach, whose=whose, **sent)
    with pytest.raises(OnListError):
        actions_own.add_item(actor=coach, whose=whose, **sent)
    other = actions_own.add_item(actor=coach, whose=whose, **values("Clamshell"))
    with pytest.raises(OnListError):
        actions_own.edit_item(actor=coach, item=other, **sent)
    assert listed(cast) == ["Bridge", "Clamshell"]


def test_saving_what_stood_there_is_no_change(cast: Cast, coach: Actor) -> None:
    sent = values("Bridge")
    row = actions_own.add_item(actor=coach, whose=Whose(athlete=cast.athlete), **sent)
    row = OwnItem.objects.get(pk=row.pk)
    assert not actions_own.edit_item(actor=coach, item=row, **sent)
    assert actions_own.edit_item(actor=coach, item=row, **sent | {"goal": "level hips"})


def test_ended_item_is_off_the_list_and_ends_once(cast: Cast, coach: Actor) -> None:
    row = OwnItemFactory.create(athlete=cast.athlete)
    assert [actions_own.end_item(actor=coach, item=row) for _ in range(2)] == [True, False]
    assert listed(cast) == []
    assert OwnItem.objects.get().ended_by_id == coach.user_id


def test_own_items_go_before_those_of_squad_and_position(cast: Cast) -> None:
    type(cast.athlete).objects.filter(pk=cast.athlete.pk).update(position="Goalkeeper")
    cast.athlete.refresh_from_db()
    for name, position in (("Squad's", ""), ("Keeper's", "goalkeeper"), ("Wing's", "wing")):
        OwnItemFactory.create(athlete=None, squad=cast.squad, exercise__name=name, player_position=position)
    OwnItemFactory.create(athlete=None, squad=cast.other_squad, exercise__name="Another squad's")
    OwnItemFactory.create(athlete=cast.athlete, exercise__name="Own")
    assert listed(cast) == ["Own", "Squad's", "Keeper's"]
    assert [row.exercise.name for row in listed_for_squad(cast.squad)] == ["Squad's", "Keeper's", "Wing's"]


def test_review_day_asks_and_ends_nothing(cast: Cast, coach: Actor) -> None:
    due = OwnItemFactory.create(athlete=cast.athlete, review_on=today())
    OwnItemFactory.create(athlete=cast.athlete, review_on=None)
    OwnItemFactory.create(athlete=cast.child, review_on=days_ago(1))
    assert list(own_reviews_due(coach, today())) == [due]
    assert OwnItem.objects.standing().count() == 3
    actions_own.keep_item(actor=coach, item=due, review_on=None)
    assert list(own_reviews_due(coach, today())) == []


@pytest.mark.parametrize("role", [Role.OTHER_COACH, Role.ASSISTANT, Role.CLINICIAN])
def test_only_the_athletes_coaches_write(cast: Cast, role: Role) -> None:
    actor, row = cast.actor_of(role), OwnItemFactory.create(athlete=cast.athlete)
    for whose in (Whose(athlete=cast.athlete), Whose(squad=cast.squad), Whose(player_position="wing")):
        with pytest.raises(PermissionDenied):
            actions_own.add_item(actor=actor, whose=whose, **values(f"Bridge {whose.columns}"[:40]))
    with pytest.raises(PermissionDenied):
        actions_own.end_item(actor=actor, item=row)


def test_position_of_every_squad_is_the_owners(cast: Cast, coach: Actor) -> None:
    row = OwnItemFactory.create(athlete=None, player_position="wing")
    with pytest.raises(PermissionDenied):
        actions_own.end_item(actor=coach, item=row)
    assert actions_own.end_item(actor=cast.actor_of(Role.OWNER), item=row)


def test_list_is_saved_as_a_set_in_its_order_under_a_name_of_its_own(cast: Cast, coach: Actor) -> None:
    items = [OwnItemFactory.create(athlete=cast.athlete, exercise__name=name) for name in ("Bridge", "Clamshell")]
    actions_own.save_as_set(actor=coach, name="Hips", items=items)
    saved = [[item.exercise.name for item in row.items.all()] for row in sets_in_use()]
    assert saved == [["Bridge", "Clamshell"]]
    with pytest.raises(ValidationError):
        actions_own.save_as_set(actor=coach, name="Hips", items=items)


def test_set_is_given_to_several_and_doubles_nothing(cast: Cast, coach: Actor) -> None:
    own_set = OwnSetFactory.create()
    first, second = (OwnSetItemFactory.create(own_set=own_set, goal=goal) for goal in ("knees", "hips"))
    OwnItemFactory.create(athlete=cast.athlete, exercise=first.exercise, goal="as it was")
    whose = [
        Whose(athlete=cast.athlete),
        Whose(athlete=AthleteFactory.create(squad=cast.squad)),
        Whose(squad=cast.squad),
    ]
    for new in (5, 0):
        rows = actions_own.give_set(actor=coach, own_set=own_set, whose=whose, from_on=today(), review_on=None)
        assert len(rows) == new
    goals = [(row.goal, row.from_set_id) for row in OwnItem.objects.filter(athlete=cast.athlete)]
    assert goals == [("as it was", None), ("hips", own_set.pk)]
    assert [row.exercise_id for row in listed_for_squad(cast.squad)] == [first.exercise_id, second.exercise_id]


def test_set_that_is_put_away_leaves_what_was_given(cast: Cast, coach: Actor) -> None:
    own_set = OwnSetItemFactory.create().own_set
    actions_own.give_set(
        actor=coach, own_set=own_set, whose=[Whose(athlete=cast.athlete)], from_on=today(), review_on=None
    )
    actions_own.archive_set(actor=coach, own_set=own_set)
    assert (len(listed(cast)), list(sets_in_use())) == (1, [])
