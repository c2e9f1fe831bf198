"""Giving a session: the preview tells everything and writes nothing; the confirmation makes one assignment."""

from __future__ import annotations

import re
from datetime import timedelta
from decimal import Decimal
from typing import Any
from urllib.parse import urlencode

import pytest
from django.db import connection
from django.http import QueryDict
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coachhub.base.clock import now, today
from coachhub.cards.models import Assignment, Card
from coachhub.desk.pages.cards_assign import AssignPage, Preview, asked_form
from coachhub.library.models import StockPlate
from coachhub.plans.models import Prescription
from tests.cards.conftest import Evening
from tests.cast import Role
from tests.desk.evening import asked, restrict_knee
from tests.factories import (
    AssignmentFactory,
    AthleteFactory,
    AvailabilityFactory,
    CardFactory,
    KnownBestFactory,
    RedFlagFactory,
    SessionFactory,
    SquadFactory,
    VenueFactory,
)

URL = reverse("desk:assign")


def preview_of(evening: Evening, **changed: Any) -> Preview:
    query = QueryDict(urlencode(asked(evening, **changed), doseq=True))
    page = AssignPage.of(evening.coach, asked_form(evening.coach, query), query)
    assert page.preview is not None
    return page.preview


def cells(preview: Preview, name: str) -> list[tuple[str, str, bool, tuple[str, ...]]]:
    (line,) = [line for line in preview.lines if line.athlete.given_name == name]
    return [(cell.name, cell.load, cell.is_dropped, cell.why) for cell in line.cells]


@pytest.fixture
def coach(evening: Evening) -> Client:
    return evening.cast.client_of("coach")


def test_preview_tells_loads_per_athlete_and_writes_nothing(evening: Evening) -> None:
    preview = preview_of(evening)

    assert [(c.label, c.name, c.dose) for c in preview.columns] == [
        ("A1", "Front squat", "4 × 5"),
        ("A2", "Split squat", "4 × 8 each side"),
        ("B1", "Romanian deadlift", "3 × 5"),
    ]
    assert cells(preview, "Ingrid") == [("", "60 kg", False, ()), ("", "", False, ()), ("", "60 kg", False, ())]
    assert Assignment.objects.count() == 1


def test_preview_tells_swaps_and_what_is_left_out_with_the_reason(evening: Evening) -> None:
    restrict_knee(evening, evening.athlete)

    preview = preview_of(evening)

    reason = "Restricted for now: knee."
    assert cells(preview, "Ingrid")[0][0] == "Goblet squat"
    assert cells(preview, "Ingrid")[0][3][0] == reason
    assert cells(preview, "Ingrid")[1] == ("", "", True, (reason, "No lunge is left on this card."))
    assert cells(preview, "Petra") == [("", "60 kg", False, ()), ("", "", False, ()), ("", "60 kg", False, ())]
    assert (preview.swaps, preview.drops) == (1, 1)


def test_swap_does_not_inherit_the_load(evening: Evening) -> None:
    restrict_knee(evening, evening.athlete)

    assert cells(preview_of(evening), "Ingrid")[0][1] == "find it"


def test_share_of_a_known_best_differs_by_athlete(evening: Evening) -> None:
    Prescription.objects.filter(pk=evening.hinge.pk).update(load_rule="percent", percent=70, load=None, load_unit="")
    KnownBestFactory.create(athlete=evening.athlete, exercise=evening.cast.exercise, load_value=Decimal(100))

    preview = preview_of(evening)

    assert [cells(preview, name)[2][1] for name in ("Ingrid", "Petra")] == ["70 kg", "find it"]


def test_whoever_is_out_is_said_and_not_ticked(evening: Evening) -> None:
    AvailabilityFactory.create(athlete=evening.athlete, status="out")
    RedFlagFactory.create(athlete=evening.cast.team_mate)

    lines = preview_of(evening).lines

    assert [(line.is_ticked, line.is_out, line.waits) for line in lines] == [(False, True, False), (True, False, True)]


def test_whoever_has_it_already_is_said_and_not_ticked(evening: Evening) -> None:
    lines = preview_of(evening, in_days=0).lines

    assert [(line.is_ticked, line.holds) for line in lines] == [(False, evening.assignment.pk)] * 2


def test_whoever_has_another_session_that_day_is_said_and_stays_ticked(evening: Evening, coach: Client) -> None:
    other = SessionFactory.create(name="Hills", plan=evening.cast.plan)
    given = AssignmentFactory.create(session=other, squad=evening.cast.squad, on_date=today() + timedelta(days=1))
    cancelled = AssignmentFactory.create(session=other, on_date=given.on_date, cancelled_at=now())
    CardFactory.create(assignment=given, athlete=evening.athlete)
    CardFactory.create(assignment=cancelled, athlete=evening.cast.team_mate)

    lines = [(line.athlete.given_name, line.is_ticked, line.others) for line in preview_of(evening).lines]

    assert lines == [("Ingrid", True, ("Hills",)), ("Petra", True, ())]
    text = coach.get(URL, asked(evening)).content.decode()
    assert text.count("has another session that day: Hills") == 1


def test_same_session_at_another_venue_is_another(evening: Evening) -> None:
    preview = preview_of(evening, in_days=0, venue=VenueFactory.create().pk)

    assert [(line.holds, line.others) for line in preview.lines] == [(0, ("Squat and hinge",))] * 2


def test_enter_in_a_field_shows_who_gets_what(evening: Evening, coach: Client) -> None:
    """A browser presses the form's first button that sends it."""
    text = coach.get(URL).content.decode()

    assert re.findall(r'<button[^>]* name="(\w+)" value="1"|<button name="(\w+)"', text)[0] == ("show", "")


def test_confirming_gives_cards_to_those_ticked(evening: Evening, coach: Client) -> None:
    query = urlencode(asked(evening))

    response = coach.post(f"{URL}?{query}", {"athlete": [evening.athlete.pk]})

    given = Assignment.objects.exclude(pk=evening.assignment.pk).get()
    assert response["Location"] == reverse("desk:assignment", kwargs={"pk": given.pk})
    assert [card.athlete for card in given.cards.all()] == [evening.athlete]
    assert given.squad == evening.cast.squad


def test_confirming_twice_gives_one_assignment(evening: Evening, coach: Client) -> None:
    sent = asked(evening, athlete=[evening.athlete.pk, evening.cast.team_mate.pk])

    first, second = coach.post(URL, sent), coach.post(URL, sent)

    assert first["Location"] == second["Location"]
    assert (Assignment.objects.count(), Card.objects.count()) == (2, 4)


def test_nobody_ticked_comes_back_with_the_preview(evening: Evening, coach: Client) -> None:
    response = coach.post(f"{URL}?{urlencode(asked(evening))}")

    assert response.status_code == 422
    assert "Nobody is ticked" in response.content.decode()
    assert [line.is_ticked for line in response.context["page"].preview.lines] == [False, False]
    assert Assignment.objects.count() == 1


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"on_date": "soon"}, "on_date"),
        ({"on_date": "2199-01-01"}, "on_date"),
        ({"week": 0}, "week"),
        ({"venue": 0}, "venue"),
    ],
)
def test_bad_values_are_said_beside_their_field(
    evening: Evening, coach: Client, changed: dict[str, Any], field: str
) -> None:
    sent = asked(evening, athlete=[evening.athlete.pk], **changed)

    for response in (coach.post(URL, sent), coach.get(URL, sent)):
        assert response.status_code == 422
        assert list(response.context["form"].errors) == [field]
    assert Assignment.objects.count() == 1


def test_another_squads_athlete_and_session_cannot_be_given(evening: Evening) -> None:
    other = evening.cast.client_of("other coach")

    response = other.post(URL, asked(evening, athlete=[evening.athlete.pk]))

    assert response.status_code == 422
    assert sorted(response.context["form"].errors) == ["athlete", "session", "squad"]


def test_single_athletes_are_found_by_name_and_previewed(evening: Evening, coach: Client) -> None:
    found = coach.get(URL, asked(evening, squad="", name="moss", find=1)).context["page"]
    assert (found.found, found.preview) == ((evening.athlete,), None)

    query = asked(evening, squad="", athlete=evening.athlete.pk)
    preview = coach.get(URL, query).context["page"].preview
    assert [line.athlete for line in preview.lines] == [evening.athlete]

    coach.post(f"{URL}?{urlencode(query)}", {"athlete": [evening.athlete.pk]})
    assert Assignment.objects.get(squad=None).cards.get().athlete == evening.athlete


def test_empty_squad_and_unwritten_session_are_said(evening: Evening) -> None:
    owner = evening.cast.client_of(Role.OWNER)
    empty = SquadFactory.create(name="Veterans")
    assert "Nobody is in Veterans on this day." in owner.get(URL, asked(evening, squad=empty.pk)).content.decode()

    Prescription.objects.all().delete()
    assert "no exercises yet" in owner.get(URL, asked(evening)).content.decode()


def test_room_without_plates_says_what_can_be_loaded(evening: Evening) -> None:
    StockPlate.objects.all().delete()

    assert cells(preview_of(evening), "Ingrid")[2][1] == "20 kg"


def test_club_without_sessions_is_told_to_write_one(evening: Evening) -> None:
    evening.session.archived_at = evening.assignment.created_at
    evening.session.save()

    assert "No session is written yet." in evening.cast.client_of("coach").get(URL).content.decode()


def test_preview_costs_as_much_for_one_as_for_thirty(evening: Evening, coach: Client) -> None:
    def cost() -> int:
        with CaptureQueriesContext(connection) as queries:
            assert coach.get(URL, asked(evening)).status_code == 200
        return len(queries)

    restrict_knee(evening, evening.athlete)
    other = AssignmentFactory.create(on_date=today() + timedelta(days=1))
    few = cost()
    for _ in range(30):
        athlete = AthleteFactory.create(squad=evening.cast.squad)
        restrict_knee(evening, athlete)
        AvailabilityFactory.create(athlete=athlete)
        CardFactory.create(assignment=other, athlete=athlete)

    assert cost() == few


def test_link_from_a_session_fills_in_what_goes_with_it(evening: Evening, coach: Client) -> None:
    form = coach.get(URL, {"session": evening.session.pk}).context["form"]

    assert [form[name].value() for name in ("session", "squad", "week", "venue")] == [
        str(evening.session.pk), evening.cast.squad.pk, evening.session.week_from, evening.card().assignment.venue_id,
    ]  # fmt: skip


def test_of_several_venues_the_one_where_the_squad_was_last_is_chosen(evening: Evening, coach: Client) -> None:
    VenueFactory.create()
    chosen = [coach.get(URL, query).context["form"]["venue"].value() for query in ({}, {"session": evening.session.pk})]

    assert chosen == [None, evening.card().assignment.venue_id]
