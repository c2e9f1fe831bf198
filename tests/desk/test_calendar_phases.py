"""The page of a squad's phases: a drawing, and the same as a table."""

from __future__ import annotations

import re
from datetime import timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from coachhub.base.clock import today
from coachhub.coaching.series import monday_of
from coachhub.season.actions import set_phase
from coachhub.season.models import SeasonPhase
from tests.cast import Cast, Role
from tests.factories import CardFactory, CardLineFactory, CardRevisionFactory, SetEntryFactory

MONDAY = monday_of(today())


def trained(cast: Cast) -> None:
    """One set done of the three planned, in a phase that wants some."""
    set_phase(
        actor=cast.actor_of(Role.COACH),
        squad=cast.squad,
        code="strength",
        from_on=MONDAY,
        to_on=MONDAY + timedelta(days=13),
        targets={},
    )
    line = CardLineFactory.create(
        revision=CardRevisionFactory.create(card=cast.card), exercise=cast.exercise, patterns=["hinge"], sets=3
    )
    SetEntryFactory.create(line=line)


@pytest.mark.parametrize("htmx", [False, True])
def test_week_shows_planned_done_and_what_is_meant(cast: Cast, htmx: bool) -> None:
    trained(cast)
    headers = {"HX-Request": "true"} if htmx else {}

    answer = cast.client_of(Role.ASSISTANT).get(f"/squads/{cast.squad.pk}/phases/", headers=headers)

    page = answer.context["page"]
    weeks = [(week.monday, week.phase, week.is_now) for week in page.weeks]
    assert weeks == [(MONDAY, "strength", True), (MONDAY + timedelta(weeks=1), "strength", False)]
    hinge = page.weeks[0].cells[0]
    assert (hinge.planned, hinge.done, hinge.target, hinge.is_outside) == ("3.0", "1.0", "4–10", True)


def test_drawing_has_a_band_for_the_phase_and_two_bars_a_week(cast: Cast) -> None:
    trained(cast)

    text = cast.client_of(Role.COACH).get(f"/squads/{cast.squad.pk}/phases/").content.decode()

    assert re.findall(r'<svg class="band" x="0" y="0" width="(\d+)"', text) == ["84"]
    bars = re.findall(r'<rect class="(planned|done)" .*?height="([\d.]+)"', text)
    assert bars == [("planned", "84.0"), ("planned", "0.0"), ("done", "28.0"), ("done", "0.0")]


def test_squad_without_phases_or_cards_has_an_empty_page(cast: Cast) -> None:
    page = cast.client_of(Role.COACH).get(f"/squads/{cast.squad.pk}/phases/")

    assert "No phase is set." in page.content.decode()
    assert {cell.done for week in page.context["page"].weeks for cell in week.cells} == {"–"}


def test_page_takes_the_same_queries_for_one_athlete_and_thirty(cast: Cast) -> None:
    trained(cast)
    client = cast.client_of(Role.OWNER)

    def queries() -> int:
        with CaptureQueriesContext(connection) as asked:
            client.get(f"/squads/{cast.squad.pk}/phases/")
        return len(asked)

    one = queries()
    for _ in range(30):
        card = CardFactory.create(assignment=cast.assignment)
        line = CardLineFactory.create(revision=CardRevisionFactory.create(card=card), patterns=["push"])
        SetEntryFactory.create(line=line)
    assert (queries(), one <= 10) == (one, True)


def test_phase_is_added_with_targets_of_its_own(cast: Cast) -> None:
    data = {"code": "power", "from_on": "2026-11-30", "to_on": "2026-12-20", "low_hinge": "2", "high_hinge": "4"}

    answer = cast.client_of(Role.COACH).post(f"/squads/{cast.squad.pk}/phases/add/", data, follow=True)

    assert "hinge 2–4, squat 3–8" in answer.content.decode()


@pytest.mark.parametrize(
    ("data", "field"),
    [({"to_on": "2026-11-01"}, "to_on"), ({"high_hinge": "4"}, "high_hinge"), ({"low_push": "61"}, "low_push")],
)
def test_wrong_phase_is_said_beside_its_field(cast: Cast, data: dict[str, str], field: str) -> None:
    sent = {"code": "power", "from_on": "2026-11-30", "to_on": "2026-12-20"} | data

    answer = cast.client_of(Role.COACH).post(f"/squads/{cast.squad.pk}/phases/add/", sent)

    assert (answer.status_code, field in answer.context["form"].errors) == (422, True)
    assert SeasonPhase.objects.count() == 0
