"""Sheets of the whole squad: what each tells of whom, and who may have them."""

from __future__ import annotations

from datetime import date
from uuid import uuid4

import pytest
from django.db import connection
from django.http import HttpResponse
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coachhub.base.clock import today
from coachhub.cards.actions import report_pain, report_red_flag, restrict_athlete
from coachhub.cards.models import Assignment, CardCopy
from coachhub.people.models import Athlete, ConsentKind, RedFlagKind
from tests.cast import Role
from tests.factories import (
    AthleteFactory,
    CircuitGroupFactory,
    ConsentFactory,
    ExerciseFactory,
    GuardianshipFactory,
    PrescriptionFactory,
)
from tests.paper.conftest import Day, pages


@pytest.fixture
def child(day: Day) -> Athlete:
    """Sixteen, among the Seniors, with a guardian."""
    born = date(today().year - 16, 1, 1)
    athlete = AthleteFactory.create(given_name="Juno", family_name="Ashby", born_on=born, squad=day.cast.squad)
    GuardianshipFactory.create(
        athlete=athlete, relation="mother", guardian__name="Wren Ashby", guardian__phone="0555 010"
    )
    return athlete


@pytest.fixture
def give(day: Day, child: Athlete) -> Assignment:
    day.cast.athlete.emergency_contact = "Rowan Moss 0555 020"
    day.cast.athlete.health_alert = "asthma, spray in the bag"
    day.cast.athlete.save()
    return day.give(day.cast.athlete, child)


def asked(day: Day, give: Assignment, kind: str, role: Role = Role.COACH, **more: str) -> HttpResponse:
    data = {"card": [card.pk for card in give.cards.all()], "kind": kind, **more}
    url = reverse("paper:assignment_pdf", args=[give.pk])
    return day.cast.client_of(role).post(url, data)  # type: ignore[return-value]


def text_of(day: Day, give: Assignment, kind: str, role: Role = Role.COACH) -> str:
    return " ".join(pages(asked(day, give, kind, role).content))


def hurt(day: Day, athlete: Athlete) -> None:
    restrict_athlete(
        actor=day.cast.actor_of(Role.COACH),
        athlete=athlete,
        kind="region",
        region="shoulder",
        side="left",
        diagnosis="labrum",
        can_do="legs",
        on_word_of="Dr Alder",
        starts_on=today(),
    )
    report_pain(
        actor=day.cast.actor_of(Role.COACH),
        athlete=athlete,
        uuid=uuid4(),
        region="elbow",
        side="right",
        score=2,
        is_sore_only=False,
    )


def test_staff_sheet_has_loads_alerts_and_contacts(day: Day, give: Assignment) -> None:
    hurt(day, day.cast.athlete)
    text = text_of(day, give, "staff")
    assert "Juno Ashby (!) 60 kg × 5 8 each side find it × 8" in text
    assert "Ingrid Moss (!) 60 kg × 5 8 each side left out" in text
    assert "Ingrid Moss Rowan Moss 0555 020 asthma, spray in the bag · restricted: left shoulder (legs) · " in text
    assert "hurts: right elbow, 2 of 10" in text
    assert (
        "Juno Ashby Wren Ashby 0555 010 no consent on file: strength training, keeping training data, own phone" in text
    )
    assert " as of " in text
    assert "Under 18: only with a qualified coach present" in text
    assert "labrum" not in text


def test_assistant_reads_what_is_left_to_do_but_not_what_is_restricted(day: Day, give: Assignment) -> None:
    hurt(day, day.cast.athlete)
    text = text_of(day, give, "staff", Role.ASSISTANT)
    assert "restricted: the coach knows what (legs) · hurts: right elbow, 2 of 10" in text
    assert "asthma, spray in the bag" in text
    assert [word for word in ("shoulder", "labrum", "Dr Alder") if word in text] == []


def test_consents_on_file_leave_nothing_to_say(day: Day, give: Assignment, child: Athlete) -> None:
    for kind in ConsentKind:
        ConsentFactory.create(athlete=child, kind=kind, withdrawn_on=None)
    assert "no consent" not in text_of(day, give, "staff")


def test_wall_tells_no_load_of_a_child_and_nothing_of_health(day: Day, give: Assignment) -> None:
    hurt(day, day.cast.athlete)
    text = text_of(day, give, "wall")
    assert "Juno Ashby 5 8 each side 8 Ingrid Moss 60 kg × 5 8 each side –" in text
    told = ("shoulder", "elbow", "hurts", "restricted", "asthma", "0555", "consent", "(!)", "left out", "legs")
    assert [word for word in told if word in text] == []


def test_whoever_waits_has_no_plan_on_any_sheet(day: Day, give: Assignment, child: Athlete) -> None:
    report_red_flag(actor=day.cast.actor_of(Role.COACH), athlete=child, uuid=uuid4(), kind=RedFlagKind.FAINT)
    assert "Juno Ashby (!) DO NOT TRAIN" in text_of(day, give, "staff")
    wall = text_of(day, give, "wall")
    assert "Juno Ashby ask the coach" in wall
    assert [word for word in ("faint", "clearance", "TRAIN") if word in wall] == []
    guardians = text_of(day, give, "guardians")
    assert "Juno does not train for now. Please talk to the coach first." in guardians
    assert [word for word in ("faint ", "What Juno will do", "Front squat") if word in guardians] == []


def test_attendance_list_has_names_and_boxes_only(day: Day, give: Assignment) -> None:
    text = text_of(day, give, "roll")
    assert "No. Athlete present late absent Note 1 Juno Ashby ☐ ☐ ☐ 2 Ingrid Moss ☐ ☐ ☐" in text
    assert [word for word in ("0555", "Wren", "asthma") if word in text] == []


def test_staffs_attendance_list_has_guardians_phones_of_children_only(day: Day, give: Assignment) -> None:
    GuardianshipFactory.create(athlete=day.cast.athlete, guardian__name="Old Moss", guardian__phone="0555 030")
    text = text_of(day, give, "roll-staff")
    assert "1 Juno Ashby ☐ ☐ ☐ Wren Ashby (mother) 0555 010 2 Ingrid Moss ☐ ☐ ☐" in text
    assert "Old Moss" not in text


def test_sheet_for_guardians_is_one_page_about_one_child(day: Day, child: Athlete) -> None:
    other = AthleteFactory.create(given_name="Tove", family_name="Ibsen", is_minor=True, squad=day.cast.squad)
    (first, second) = pages(asked(day, day.give(child, other), "guardians").content)
    assert "For parents and guardians of Juno Ashby" in first
    assert (
        "To get stronger: Front squat: 4 times 5; Split squat: 4 times 8 on each side; Seated press: 3 times 8."
        in first
    )
    assert "Bending and stretching the legs" in first
    assert "Cato Lind, coach · Asa Fell, assistant · Phone" in first
    assert [word for word in ("Tove", "Ibsen", "60", "kg", "Ingrid") if word in first] == []
    assert "For parents and guardians of Tove Ibsen" in second


def test_sheet_for_guardians_tells_nothing_of_a_restriction(day: Day, give: Assignment, child: Athlete) -> None:
    hurt(day, child)
    text = text_of(day, give, "guardians")
    assert "Seated press" not in text
    told = ("shoulder, left", "left shoulder", "elbow", "restricted", "left out", "labrum", "Dr Alder", "legs)")
    assert [word for word in told if word in text] == []


def test_sheet_for_guardians_where_no_coach_is_asks_for_an_adult(day: Day, child: Athlete) -> None:
    day.cast.venue.is_supervised = False
    day.cast.venue.save()
    text = text_of(day, day.give(child), "guardians")
    assert "No coach is there this time. Please have an adult near." in text
    assert "A coach is there all the time" not in text


def test_no_child_ticked_makes_no_sheet_for_guardians(day: Day) -> None:
    response = asked(day, day.give(day.cast.athlete), "guardians")
    assert (response.status_code, "None of those ticked is under 18." in response.content.decode()) == (422, True)


@pytest.mark.parametrize("role", [Role.ASSISTANT, Role.CLINICIAN])
def test_sheet_for_guardians_is_the_coachs_to_give(day: Day, give: Assignment, role: Role) -> None:
    response = asked(day, give, "guardians", role)
    assert (response.status_code, "For parents" in response.content.decode(errors="ignore")) == (422, False)


@pytest.mark.parametrize(
    ("kind", "copies"), [("staff", 2), ("wall", 2), ("roll", 0), ("roll-staff", 0), ("guardians", 0)]
)
def test_sheets_with_loads_are_remembered_as_copies(day: Day, give: Assignment, kind: str, copies: int) -> None:
    response = asked(day, give, kind)
    assert response["Content-Disposition"].endswith(f'-squat-and-pull-seniors-{kind}.pdf"')
    assert CardCopy.objects.count() == copies


@pytest.mark.parametrize("kind", ["staff", "wall", "roll", "roll-staff", "guardians"])
def test_sheet_costs_the_same_for_one_athlete_and_for_thirty(day: Day, kind: str) -> None:
    counts = []
    for n in (1, 30):
        squad = [AthleteFactory.create(squad=day.cast.squad, is_minor=True) for _ in range(n)]
        give = day.give(*squad)
        with CaptureQueriesContext(connection) as queries:
            asked(day, give, kind)
        counts.append(len(queries))
    assert counts[0] == counts[1]


def test_more_lines_than_a_table_holds_go_into_a_second(day: Day, child: Athlete) -> None:
    for position in range(2, 10):
        group = CircuitGroupFactory.create(segment=day.squat.group.segment, position=position)
        PrescriptionFactory.create(group=group, exercise=ExerciseFactory.create(name=f"Lift {position}"))
    text = text_of(day, day.give(child), "wall")
    assert (text.count("Juno Ashby"), text.count("Athlete ")) == (2, 2)
    assert [n for n in range(2, 10) if text.count(f"Lift {n} ") != 1] == []
