"""The page of a squad's checks: each athlete's own days, the floor of each session, answers to both."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.test import Client
from django.urls import reverse

from coachhub.base.clock import today
from coachhub.desk.pages.review_squad import SquadChecks, monday_of
from coachhub.people.models import Membership
from coachhub.plans.models import FindingAcceptance
from tests.cards.fortnight import Fortnight
from tests.cast import Cast

pytestmark = pytest.mark.django_db

HTMX = {"HX-Request": "true"}


@pytest.fixture
def weeks(cast: Cast) -> Fortnight:
    """Heavy legs on Tuesday and Wednesday for athlete and team-mate."""
    Membership.objects.update(started_on=today() - timedelta(days=400))
    made = Fortnight(cast)
    for day in (1, 2):
        made.give(day, cast.athlete, cast.team_mate)
    return made


def address(cast: Cast, name: str = "squad_checks") -> str:
    return reverse(f"desk:{name}", kwargs={"pk": cast.squad.pk})


def page_of(client: Client, cast: Cast, **query: str) -> SquadChecks:
    page: SquadChecks = client.get(address(cast), query).context["page"]
    return page


def near_key(page: SquadChecks) -> str:
    (row,) = page.athletes.rows
    assert row.form is not None
    return str(row.form.initial["key"])


def test_same_remark_is_said_once_with_all_its_athletes(cast: Cast, weeks: Fortnight) -> None:
    page = page_of(cast.client_of("coach"), cast)

    (row,) = page.athletes.rows
    assert row.text.startswith("Heavy legs on Tue ")
    assert row.text.count("(Heavy squats)") == 2
    assert (row.names, row.is_warning) == (("Ingrid Moss", "Petra Vane"), True)
    assert [floor.found.rows for floor in page.floors] == [(), ()]


def test_page_shows_the_weeks_that_are_asked_for(cast: Cast, weeks: Fortnight) -> None:
    coach = cast.client_of("coach")
    later = page_of(coach, cast, **{"from": (weeks.first + timedelta(days=20)).isoformat()})

    assert (later.first, later.before) == (weeks.first + timedelta(days=14), weeks.first)
    assert (later.athletes.rows, later.floors) == ((), ())
    assert page_of(coach, cast, **{"from": "nonsense"}).first == weeks.first
    assert monday_of("9999-12-31") == weeks.first


@pytest.mark.parametrize("headers", [{}, HTMX], ids=["page", "fragment"])
def test_answer_holds_for_all_athletes_of_the_remark(cast: Cast, weeks: Fortnight, headers: dict[str, str]) -> None:
    coach = cast.client_of("coach")
    athletes = [cast.athlete.pk, cast.team_mate.pk]
    sent = {
        "key": near_key(page_of(coach, cast)),
        "word": "Camp",
        "athlete": athletes,
        "from": weeks.first.isoformat(),
        "at": "athletes",
    }

    for _twice in range(2):
        response = coach.post(address(cast, "squad_answer"), sent, headers=headers)
        assert response["Location"] == f"{address(cast)}?from={weeks.first}&at=athletes"

    page = page_of(coach, cast)
    (quiet,) = page.athletes.accepted
    assert (page.athletes.rows, quiet.names, quiet.word) == ((), ("Ingrid Moss", "Petra Vane"), "Camp")
    coach.post(address(cast, "squad_answer"), {"acceptance": list(quiet.ids)}, headers=headers)
    assert not FindingAcceptance.objects.standing().exists()
    assert len(page_of(coach, cast).athletes.rows) == 1


def test_answer_without_a_word_is_said_beside_it(cast: Cast, weeks: Fortnight) -> None:
    coach = cast.client_of("coach")
    sent = {"key": near_key(page_of(coach, cast)), "athlete": [cast.athlete.pk, cast.team_mate.pk]}

    response = coach.post(address(cast, "squad_answer"), {**sent, "from": weeks.first.isoformat()}, headers=HTMX)

    (row,) = response.context["page"].athletes.rows
    assert row.form is not None
    assert (response.status_code, row.form.errors) == (422, {"word": ["This field is required."]})


def test_answer_for_somebody_of_another_squad_is_not_found(cast: Cast, weeks: Fortnight) -> None:
    coach = cast.client_of("coach")
    sent = {"key": near_key(page_of(coach, cast)), "word": "Camp", "athlete": [cast.athlete.pk, cast.child.pk]}

    assert coach.post(address(cast, "squad_answer"), sent).status_code == 404
    assert not FindingAcceptance.objects.exists()


def test_floor_is_answered_for_that_session_alone(cast: Cast, weeks: Fortnight) -> None:
    """Nobody coaches here: the athletes are too many for none."""
    for staff in cast.squad.staff.all():
        staff.staff_squads.all().delete()
    owner = cast.client_of("owner")
    first, second = page_of(owner, cast).floors
    (row,) = first.found.rows
    assert row.form is not None

    owner.post(address(cast, "squad_answer"), {"key": row.form.initial["key"], "word": "I am there"})

    after = page_of(owner, cast).floors
    assert [len(floor.found.rows) for floor in after] == [0, len(second.found.rows)] == [0, 1]
    assert FindingAcceptance.objects.get().squad == cast.squad


def test_reader_sees_no_way_to_answer(cast: Cast, weeks: Fortnight) -> None:
    page = page_of(cast.client_of("clinician"), cast)

    assert [row.form for row in page.athletes.rows] == [None]
