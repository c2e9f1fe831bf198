"""Levels at the desk: who is where, set for one or several, one tap from history, proposals answered together."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coachhub.base.clock import now, today
from coachhub.cards.models import SetMark
from coachhub.library.models import Exercise
from coachhub.people.models import Athlete, AthleteLevel
from coachhub.plans.models import Prescription
from tests.cast import Cast, Role
from tests.factories import AthleteFactory, AthleteLevelFactory, CardLineFactory, ExerciseFactory, SetEntryFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def coach(cast: Cast) -> Client:
    return cast.client_of(Role.COACH)


@pytest.fixture
def family() -> list[Exercise]:
    names = ("Box squat", "Front squat", "Pause squat")
    return [ExerciseFactory.create(name=name, family="squat", family_rank=n) for n, name in enumerate(names, 1)]


def address(name: str, pk: int, **more: Any) -> str:
    return reverse(f"desk:{name}", kwargs={"pk": pk, **more})


def at(cast: Cast, athlete: Athlete, exercise: Exercise) -> None:
    coach = cast.staff[Role.COACH].user
    AthleteLevelFactory.create(athlete=athlete, exercise=exercise, set_by=coach)


def ready_for_a_step_up(cast: Cast, athlete: Athlete, exercise: Exercise) -> None:
    at(cast, athlete, exercise)
    for days in (10, 3):
        line = CardLineFactory.create(exercise=exercise, revision__card__athlete=athlete)
        entry = SetEntryFactory.create(line=line, reps=6, on_date=today() - timedelta(days=days))
        SetMark.objects.create(entry=entry, quality="clean", marked_at=now(), marked_by=cast.staff[Role.ASSISTANT].user)


def where(athlete: Athlete) -> list[tuple[str, str]]:
    rows = AthleteLevel.objects.filter(athlete=athlete).order_by("pk").select_related("exercise")
    return [(row.exercise.name if row.exercise else "", row.reason) for row in rows]


def test_level_is_set_with_its_reason_and_shown_with_who_set_it(
    cast: Cast, coach: Client, family: list[Exercise]
) -> None:
    url = address("levels", cast.athlete.pk)
    coach.post(url, {"to": str(family[1].pk), "reason": "knees track well", "from_on": today().isoformat()})
    (row,) = coach.get(url).context["page"].now
    assert (row.family, row.variation, row.reason, row.by) == ("squat", "Front squat", "knees track well", "Cato Lind")
    coach.post(url, {"to": "written:squat", "reason": "back to the plan", "from_on": today().isoformat()})
    page = coach.get(url).context["page"]
    assert ([row.variation for row in page.now], [row.variation for row in page.past]) == (
        ["as the session is written"],
        ["Front squat"],
    )


def test_missing_reason_is_told_and_the_rest_is_kept(cast: Cast, coach: Client, family: list[Exercise]) -> None:
    answer = coach.post(address("levels", cast.athlete.pk), {"to": str(family[1].pk), "from_on": today().isoformat()})
    form = answer.context["form"]
    assert (answer.status_code, form.errors, form["to"].value()) == (
        422,
        {"reason": ["This field is required."]},
        str(family[1].pk),
    )
    assert where(cast.athlete) == []


def test_level_is_set_for_several_of_a_squad_and_nobody_else(cast: Cast, coach: Client, family: list[Exercise]) -> None:
    sent = {"to": str(family[0].pk), "reason": "new this season", "from_on": today().isoformat()}
    url = address("squad_levels", cast.squad.pk)
    assert coach.post(url, sent | {"athletes": [str(cast.child.pk)]}).status_code == 422
    coach.post(url, sent | {"athletes": [str(cast.athlete.pk), str(cast.team_mate.pk)]})
    ((name, rungs),) = coach.get(url).context["page"].families
    assert (name, [(one.exercise.name, one.names) for one in rungs]) == (
        "squat",
        [("Box squat", "Ingrid Moss; Petra Vane"), ("Front squat", ""), ("Pause squat", "")],
    )


@pytest.mark.parametrize(("step", "to"), [("up", "Pause squat"), ("down", "Box squat")])
def test_one_tap_from_history_steps_up_or_down(
    cast: Cast, coach: Client, family: list[Exercise], step: str, to: str
) -> None:
    at(cast, cast.athlete, family[1])
    url = address("history_exercise", cast.athlete.pk, exercise_pk=family[1].pk)
    shown = coach.get(url).context["step"]
    tap = address("level_step", cast.athlete.pk, exercise_pk=family[1].pk)
    for _ in range(2):  # the second time the page is an old one
        coach.post(tap, {"step": step, "reason": shown.reason, "from": str(shown.current.pk)})
    assert where(cast.athlete) == [("Front squat", "as the coach saw it"), (to, "as the coach saw it")]


def test_reason_of_the_tap_is_the_proposals(cast: Cast, coach: Client, family: list[Exercise]) -> None:
    ready_for_a_step_up(cast, cast.athlete, family[0])
    shown = coach.get(address("history_exercise", cast.athlete.pk, exercise_pk=family[0].pk)).context["step"]
    assert shown.reason == "Every set reached the top of its range, clean, in 2 sessions running."
    assert (shown.up, shown.down) == (family[1], None)


def test_what_speaks_for_a_step_up_is_no_reason_for_one_down(cast: Cast, coach: Client, family: list[Exercise]) -> None:
    ready_for_a_step_up(cast, cast.athlete, family[1])
    shown = coach.get(address("history_exercise", cast.athlete.pk, exercise_pk=family[1].pk)).context["step"]
    tap = address("level_step", cast.athlete.pk, exercise_pk=family[1].pk)
    coach.post(tap, {"step": "down", "reason": shown.reason, "from": str(shown.current.pk)})
    assert where(cast.athlete)[1] == ("Box squat", "as the coach saw it")


def test_exercise_without_a_family_offers_no_step(cast: Cast, coach: Client) -> None:
    url = address("history_exercise", cast.athlete.pk, exercise_pk=cast.exercise.pk)
    assert coach.get(url).context["step"] is None
    tap = address("level_step", cast.athlete.pk, exercise_pk=cast.exercise.pk)
    assert coach.post(tap, {"step": "up", "reason": "why"}).status_code == 404


def test_proposals_of_a_squad_are_answered_together_and_once(cast: Cast, coach: Client, family: list[Exercise]) -> None:
    for athlete in (cast.athlete, cast.team_mate):
        ready_for_a_step_up(cast, athlete, family[0])
    url = address("squad_levels", cast.squad.pk)
    keys = [row.key for row in coach.get(url).context["page"].steps]
    answer = address("squad_steps", cast.squad.pk)
    coach.post(answer, {"steps": keys[:1], "answer": "accept"})
    coach.post(answer, {"steps": keys, "answer": "accept"})  # one of them has had its answer: nothing is guessed
    assert [len(where(one)) for one in (cast.athlete, cast.team_mate)] == [2, 1]
    coach.post(answer, {"steps": keys[1:], "answer": "decline"})
    assert where(cast.team_mate)[1] == ("Box squat", "Stays: a step up was declined.")
    assert coach.get(url).context["page"].steps == ()


def test_athletes_page_tells_levels_and_what_is_proposed(cast: Cast, coach: Client, family: list[Exercise]) -> None:
    ready_for_a_step_up(cast, cast.athlete, family[0])
    part = coach.get(address("athlete", cast.athlete.pk)).context["levels"]
    assert (part.now, [row.step.to.name for row in part.steps]) == ((("squat", "Box squat"),), ["Front squat"])
    assert cast.client_of(Role.HEAD_COACH).get(address("athlete", cast.athlete.pk)).context["levels"] is None


def test_family_on_an_exercises_page_says_who_is_where(cast: Cast, family: list[Exercise]) -> None:
    at(cast, cast.athlete, family[1])
    at(cast, cast.child, family[1])
    url = address("exercise", family[0].pk)
    seen = {
        role: [one.names for one in cast.client_of(role).get(url).context["rungs"]]
        for role in (Role.COACH, Role.OWNER, Role.HEAD_COACH)
    }
    assert seen == {
        Role.COACH: ["", "Ingrid Moss", ""],
        Role.OWNER: ["", "Ingrid Moss; Juno Reed", ""],
        Role.HEAD_COACH: ["", "", ""],
    }


def test_line_offers_each_ones_level_only_where_there_is_a_family(
    cast: Cast, coach: Client, family: list[Exercise]
) -> None:
    url = address("line", cast.prescription.pk)
    options = address("line_options", cast.prescription.group_id)
    offered = {name: coach.get(options, {"exercise": name}).content.decode() for name in ("Front squat", "Romanian")}
    assert {name: 'name="by_level"' in html for name, html in offered.items()} == {
        "Front squat": True,
        "Romanian": False,
    }
    coach.post(url, {"how": "line", "exercise": "Front squat", "notation": "3 x 8", "by_level": "on"})
    row = Prescription.objects.get()
    assert (row.exercise, row.is_by_level) == (family[1], True)
    shown = [address("session", cast.session.pk), address("plan_print", cast.plan.pk)]
    assert ["own level" in coach.get(one).content.decode() for one in shown] == [True, True]
    coach.post(url, {"how": "line", "exercise": cast.exercise.name, "notation": "3 x 8", "by_level": "on"})
    assert not Prescription.objects.get().is_by_level


def test_squads_page_costs_the_same_for_1_and_30_athletes(cast: Cast, coach: Client, family: list[Exercise]) -> None:
    costs = []
    for number in (1, 29):
        for athlete in AthleteFactory.create_batch(number, squad=cast.squad):
            ready_for_a_step_up(cast, athlete, family[0])
        with CaptureQueriesContext(connection) as asked:
            coach.get(address("squad_levels", cast.squad.pk))
        costs.append(len(asked))
    assert costs[0] == costs[1] <= 16
