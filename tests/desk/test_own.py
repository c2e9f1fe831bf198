"""The coach writes own activation work: for an athlete, a squad, a position; as a set for several."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.contrib.messages import get_messages
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coachhub.base.clock import today
from coachhub.cards.models import Card
from coachhub.desk.pages.own import OwnPage
from coachhub.desk.pages.waiting import WaitingPage
from coachhub.plans.models import OwnItem, OwnSet
from tests.cards.conftest import Evening
from tests.cast import Cast, Role
from tests.factories import (
    AthleteFactory,
    ExerciseFactory,
    OwnItemFactory,
    OwnSetItemFactory,
    RestrictionFactory,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def coach(cast: Cast) -> Client:
    return cast.client_of(Role.COACH)


def address(name: str, pk: int, **more: Any) -> str:
    return reverse(f"desk:{name}", kwargs={"pk": pk, **more})


def add(client: Client, cast: Cast, **typed: Any) -> Any:
    ExerciseFactory.create(name="Bridge", segment="activation", load_meaning="none")
    sent = {"exercise": "bridge", "notation": "2 x 12/side t3010", "from_on": today().isoformat()} | typed
    return client.post(address("own_athlete_add", cast.athlete.pk), sent)


def page(client: Client, url: str) -> OwnPage:
    shown: OwnPage = client.get(url).context["page"]
    return shown


def test_typed_dose_goal_days_are_kept_as_written(cast: Cast, coach: Client) -> None:
    answer = add(coach, cast, goal="level hips", weekdays=["0", "3"], review_on=(today() + timedelta(28)).isoformat())
    assert answer.headers["Location"] == address("own_athlete", cast.athlete.pk)
    (row,) = page(coach, answer.headers["Location"]).rows
    assert (row.name, row.dose, row.item.goal, row.when) == ("Bridge", "2 × 12/side t3010", "level hips", "Mon, Thu")
    assert (row.item.added_by, row.is_due) == (cast.staff[Role.COACH].user, False)


@pytest.mark.parametrize(
    ("typed", "field", "said"),
    [
        ({"exercise": "clam"}, "exercise", "No exercise of this name is in the library."),
        ({"notation": "2-3 x 12"}, "notation", "One number of sets here, such as 2 x 15."),
        ({"notation": "21 x 2"}, "notation", '"21": sets go from 1 to 20.'),
        ({"review_on": "2020-01-01"}, "review_on", "This is before it begins."),
        ({"from_on": ""}, "from_on", "This field is required."),
    ],
)
def test_wrong_field_is_told_and_the_rest_is_kept(
    cast: Cast, coach: Client, typed: dict[str, str], field: str, said: str
) -> None:
    answer = add(coach, cast, goal="level hips", **typed)
    form = answer.context["form"]
    assert (answer.status_code, form.errors[field], form["goal"].value()) == (422, [said], "level hips")
    assert OwnItem.objects.count() == 0


def test_sent_twice_says_that_it_is_on_the_list(cast: Cast, coach: Client) -> None:
    assert add(coach, cast).status_code == 302
    answer = coach.post(
        address("own_athlete_add", cast.athlete.pk),
        {"exercise": "Bridge", "notation": "2 x 12", "from_on": today().isoformat()},
    )
    told = "This exercise is on the list already: change it there."
    assert (answer.status_code, answer.context["form"].errors["exercise"]) == (422, [told])
    assert OwnItem.objects.count() == 1


def test_dose_is_read_while_it_is_typed(coach: Client) -> None:
    answer = coach.get(reverse("desk:own_dose_check"), {"notation": "2 x 30 s hold/side"})
    assert "2 sets of holding 30 seconds each side" in answer.content.decode()


def test_change_starts_from_what_stands_there(cast: Cast, coach: Client) -> None:
    item = OwnItemFactory.create(athlete=cast.athlete, sets=2, exercise__name="Bridge", goal="hips")
    form = coach.get(address("own_item", item.pk)).context["form"]
    sent = {name: value for name in form.fields if (value := form[name].value())}
    assert (sent["exercise"], sent["notation"], sent["goal"]) == ("Bridge", "2 x 10", "hips")
    coach.post(address("own_item", item.pk), sent | {"notation": "3 x 15"})
    item.refresh_from_db()
    assert (item.sets, item.low, item.goal) == (3, Decimal(15), "hips")


def test_buttons_move_and_end_and_pressed_twice_find_it_gone(cast: Cast, coach: Client) -> None:
    rows = [OwnItemFactory.create(athlete=cast.athlete, exercise__name=name) for name in ("Bridge", "Clamshell")]
    coach.post(address("own_item_move", rows[1].pk, way="up"))
    shown = page(coach, address("own_athlete", cast.athlete.pk))
    assert [row.name for row in shown.rows] == ["Clamshell", "Bridge"]
    answers = [coach.post(address("own_item_end", rows[1].pk)).status_code for _ in range(2)]
    assert answers == [302, 404]


def test_squads_item_stands_on_its_members_page_and_is_changed_on_the_squads(cast: Cast, coach: Client) -> None:
    OwnItemFactory.create(athlete=None, squad=cast.squad, exercise__name="Bridge")
    (mine,) = page(coach, address("own_athlete", cast.athlete.pk)).rows
    (theirs,) = page(coach, address("own_squad", cast.squad.pk)).rows
    assert [(row.whose, row.may_change) for row in (mine, theirs)] == [("Seniors", False), ("", True)]


def test_item_for_a_position_of_the_squad(cast: Cast, coach: Client) -> None:
    type(cast.athlete).objects.filter(pk=cast.athlete.pk).update(position="Goalkeeper")
    ExerciseFactory.create(name="Bridge", segment="activation")
    sent = {"exercise": "Bridge", "notation": "10", "from_on": today().isoformat(), "player_position": "Goalkeeper"}
    coach.post(address("own_squad_add", cast.squad.pk), sent)
    shown = [page(coach, address("own_athlete", one.pk)).rows for one in (cast.athlete, cast.team_mate)]
    assert [[row.whose for row in rows] for rows in shown] == [["Seniors, Goalkeeper"], []]


def test_restriction_is_told_beside_the_item_to_those_who_read_health(cast: Cast) -> None:
    OwnItemFactory.create(athlete=cast.athlete, exercise__name="Bridge", exercise__regions=["knee"])
    OwnItemFactory.create(athlete=None, squad=cast.squad, exercise__name="Step", exercise__regions=["knee"])
    RestrictionFactory.create(athlete=cast.athlete, region="knee")
    urls = [address("own_athlete", cast.athlete.pk), address("own_squad", cast.squad.pk)]
    told = {
        role: [[row.held for row in page(cast.client_of(role), url).rows] for url in urls]
        for role in (Role.COACH, Role.ASSISTANT)
    }
    held = ("Restricted for now: knee.",)
    assert told == {
        Role.COACH: [[held, held], [("Restricted or hurting: Ingrid Moss.",)]],
        Role.ASSISTANT: [[(), ()], [()]],
    }


def test_change_says_how_many_coming_cards_can_be_renewed(evening: Evening, coach: Client) -> None:
    answer = add(coach, evening.cast)
    assert [str(one) for one in get_messages(answer.wsgi_request)] == ["Added. 1 coming card can be renewed."]
    shown = page(coach, address("own_athlete", evening.athlete.pk))
    assert (shown.behind_words, list(shown.behind)) == ("1 coming card can be renewed.", [evening.assignment])
    told = coach.get(address("assignment_differences", evening.assignment.pk)).content.decode()
    assert "Bridge" in told
    coach.post(address("assignment_renew", evening.assignment.pk))
    assert page(coach, address("own_athlete", evening.athlete.pk)).behind == ()
    assert Card.objects.get(athlete=evening.athlete).revision_number == 2


def test_list_becomes_a_set_and_is_given_to_several(cast: Cast, coach: Client) -> None:
    OwnItemFactory.create(athlete=cast.athlete, exercise__name="Bridge")
    other = AthleteFactory.create(squad=cast.squad)
    for _ in range(2):
        saved = coach.post(address("own_athlete_save", cast.athlete.pk), {"name": "Hips"})
    assert (saved.status_code, saved.context["form"].errors["name"]) == (422, ["There is a set of this name."])
    url = address("own_set", OwnSet.objects.get().pk)
    for _ in range(2):
        coach.post(url, {"whom": ["squad", str(other.pk)], "from_on": today().isoformat()})
    rows = OwnItem.objects.order_by("pk").values_list("athlete", "squad")
    assert list(rows) == [(cast.athlete.pk, None), (None, cast.squad.pk), (other.pk, None)]
    coach.post(address("own_set_archive", OwnSet.objects.get().pk))
    assert coach.get(url).status_code == 404


def test_set_is_not_given_beyond_the_coachs_squads(cast: Cast, coach: Client) -> None:
    url = address("own_set", OwnSetItemFactory.create().own_set_id)
    answer = coach.post(
        f"{url}?squad={cast.other_squad.pk}", {"whom": [str(cast.child.pk)], "from_on": today().isoformat()}
    )
    assert (answer.status_code, OwnItem.objects.count()) == (422, 0)


def test_review_waits_for_the_word_of_whoever_gave_it(cast: Cast, coach: Client) -> None:
    by = {"added_by": cast.staff[Role.COACH].user, "review_on": today()}
    item = OwnItemFactory.create(athlete=cast.athlete, exercise__name="Bridge", **by)
    OwnItemFactory.create(athlete=None, squad=cast.squad, exercise__name="Step", **by)
    (group,) = WaitingPage.of(cast.actor_of(Role.COACH)).groups
    assert group.whose == "Cato Lind"
    asked = [(one.who[0], one.what, len(one.links)) for one in group.questions]
    assert asked == [("Ingrid Moss", "own activation: Bridge", 2), ("Seniors", "own activation: Step", 2)]
    coach.post(address("own_item_keep", item.pk), {"review_on": ""})
    (group,) = WaitingPage.of(cast.actor_of(Role.COACH)).groups
    assert len(group.questions) == 1


@pytest.mark.parametrize("name", ["own_athlete", "own_squad"])
def test_lists_cost_the_same_for_1_and_30_items(cast: Cast, coach: Client, name: str) -> None:
    whose = {"athlete": cast.athlete} if name == "own_athlete" else {"athlete": None, "squad": cast.squad}
    RestrictionFactory.create(athlete=cast.athlete, region="knee")
    url = address(name, (cast.athlete if name == "own_athlete" else cast.squad).pk)
    costs = []
    for number in (1, 29):
        for _ in range(number):
            OwnItemFactory.create(**whose)
        with CaptureQueriesContext(connection) as asked:
            coach.get(url)
        costs.append(len(asked))
    assert costs[0] == costs[1] <= 16


def test_fragment_and_page_show_the_same_list(cast: Cast, coach: Client) -> None:
    OwnItemFactory.create(athlete=cast.athlete, exercise__name="Bridge")
    url = address("own_athlete", cast.athlete.pk)
    shapes = [coach.get(url, headers=headers) for headers in ({}, {"HX-Request": "true"})]
    assert [("Bridge" in one.content.decode(), "HX-Request" in one.headers["Vary"]) for one in shapes] == [
        (True, True),
        (True, True),
    ]
