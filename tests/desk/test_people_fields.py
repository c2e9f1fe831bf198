"""What of an athlete each role reads: field by field, with data that could leak."""

from __future__ import annotations

import pytest

from coachhub.base.clock import now
from tests.cast import Cast, Role
from tests.factories import (
    AvailabilityFactory,
    ConsentFactory,
    PainReportFactory,
    RedFlagFactory,
    RestrictionFactory,
    SquadFactory,
)

NOTE, ALERT, CONTACT = "sleeps badly since the spring", "asthma: blue inhaler", "call Bo on 01632 960123"
BORN, POSITION, CAN_DO = "1 January", "left wing of the club", "upper body only for a week"
DIAGNOSIS, PAIN, FLAG = "grade two tear of the meniscus", "stings under the kneecap", "fell on the stairs"
MEDICAL = {DIAGNOSIS, PAIN, FLAG}
EVERYTHING = {NOTE, ALERT, CONTACT, BORN, POSITION, CAN_DO} | MEDICAL


@pytest.fixture
def known(cast: Cast) -> Cast:
    """An athlete of whom everything that can be written down is written down."""
    athlete = cast.athlete
    athlete.note, athlete.health_alert, athlete.emergency_contact, athlete.position = NOTE, ALERT, CONTACT, POSITION
    athlete.save()
    AvailabilityFactory.create(athlete=athlete, can_do=CAN_DO)
    RestrictionFactory.create(athlete=athlete, diagnosis=DIAGNOSIS)
    PainReportFactory.create(athlete=athlete, note=PAIN)
    RedFlagFactory.create(athlete=athlete, note=FLAG, reported_at=now())
    ConsentFactory.create(athlete=athlete)
    return cast


def read(cast: Cast, role: Role, address: str) -> set[str]:
    answer = cast.client_of(role).get(address)
    assert answer.status_code == 200
    page = answer.content.decode()
    return {words for words in EVERYTHING if words in page}


@pytest.mark.parametrize(
    ("role", "reads"),
    [
        (Role.OWNER, {NOTE, ALERT, CONTACT, BORN, POSITION, CAN_DO}),
        (Role.COACH, {NOTE, ALERT, CONTACT, BORN, POSITION, CAN_DO}),
        (Role.CLINICIAN, {NOTE, ALERT, CONTACT, BORN, POSITION, CAN_DO}),
        (Role.ASSISTANT, {ALERT, CONTACT, BORN, POSITION, CAN_DO}),
        (Role.HEAD_COACH, {POSITION, CAN_DO}),
    ],
)
def test_athlete_page_shows_what_the_role_may_read(known: Cast, role: Role, reads: set[str]) -> None:
    assert read(known, role, f"/athletes/{known.athlete.pk}/") - MEDICAL == reads


@pytest.mark.parametrize("role", [Role.ASSISTANT, Role.HEAD_COACH])
def test_medical_words_stay_with_those_who_treat_and_coach(known: Cast, role: Role) -> None:
    assert read(known, role, f"/athletes/{known.athlete.pk}/") & MEDICAL == set()


@pytest.mark.parametrize("role", [Role.COACH, Role.CLINICIAN, Role.ASSISTANT, Role.HEAD_COACH])
def test_lists_show_nothing_but_availability(known: Cast, role: Role) -> None:
    for address in ("/athletes/", f"/squads/{known.squad.pk}/", "/squads/"):
        assert read(known, role, address) == set(), address


@pytest.mark.parametrize("role", [Role.COACH, Role.ASSISTANT, Role.CLINICIAN, Role.HEAD_COACH])
def test_lists_hold_nobody_of_another_squad(known: Cast, role: Role) -> None:
    client = known.client_of(role)
    for address in ("/athletes/", "/athletes/?q=reed", f"/athletes/?squad={known.other_squad.pk}", "/squads/"):
        page = client.get(address).content.decode()
        assert [name for name in ("Juno Reed", "Under-18</a>") if name in page] == [], address


def test_other_squads_of_an_athlete_are_not_named(known: Cast) -> None:
    hidden = SquadFactory.create(name="Regional selection")
    known.athlete.memberships.create(squad=hidden, started_on=known.athlete.memberships.get().started_on)
    page = known.client_of(Role.COACH).get(f"/athletes/{known.athlete.pk}/").content.decode()
    assert "Regional selection" not in page
    assert "Regional selection" in known.client_of(Role.OWNER).get(f"/athletes/{known.athlete.pk}/").content.decode()


def test_head_coach_sees_the_word_out_and_no_reason(known: Cast) -> None:
    AvailabilityFactory.create(athlete=known.athlete, status="out")
    page = known.client_of(Role.HEAD_COACH).get(f"/squads/{known.squad.pk}/").content.decode()
    assert page.count('<span class="state stop">out</span>') == 1
    assert "age 24" not in page


def test_being_a_minor_is_said_in_words(known: Cast) -> None:
    page = known.client_of(Role.OTHER_COACH).get(f"/athletes/{known.child.pk}/").content.decode()
    assert "Age 14, under 18" in page
