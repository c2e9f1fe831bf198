"""The first page of the day: who trains, what waits for an answer, and what a role may not see."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from coachhub.base.clock import today
from coachhub.cards.actions import note_copies
from coachhub.cards.models import Card, CopyKind
from coachhub.desk.pages.cards_today import AvailabilityPage, TodayPage
from coachhub.people.models import Restriction, StaffSquad
from tests.cards.conftest import Evening
from tests.cast import Cast, Role
from tests.desk.evening import restrict_knee, tap_round
from tests.factories import (
    AthleteFactory,
    AvailabilityFactory,
    CardRevisionFactory,
    PainReportFactory,
    RedFlagFactory,
    RestrictionFactory,
    SquadFactory,
    days_ago,
)

URL = reverse("desk:today")


def text_for(cast: Cast, role: str) -> str:
    return cast.client_of(role).get(URL).content.decode()


def test_today_names_who_has_begun(evening: Evening) -> None:
    tap_round(evening, evening.athlete)

    page = TodayPage.of(evening.coach)

    assert [(line.row.pk, line.given, line.begun, line.names_begun) for line in page.now] == [
        (evening.assignment.pk, 2, 1, ("Ingrid Moss",))
    ]
    assert page.coming == []


def test_coming_days_hold_what_is_given_for_this_week(evening: Evening) -> None:
    later = evening.assign(evening.athlete, in_days=3)
    evening.assign(evening.athlete, in_days=9)

    assert [line.row.pk for line in TodayPage.of(evening.coach).coming] == [later.pk]


def test_another_squads_coach_sees_nothing_of_it(evening: Evening) -> None:
    RedFlagFactory.create(athlete=evening.athlete)
    PainReportFactory.create(athlete=evening.athlete)

    page = TodayPage.of(evening.cast.actor_of(Role.OTHER_COACH))

    assert (page.now, page.flags, page.pains, page.copies) == ([], [], [], [])


def test_red_flag_stands_above_everything(evening: Evening) -> None:
    RedFlagFactory.create(athlete=evening.athlete, kind="faint")
    PainReportFactory.create(athlete=evening.cast.team_mate)

    text = text_for(evening.cast, "coach")

    assert text.index("fainted") < text.index("Squat and hinge") < text.index("4 of 10")


def test_review_date_raises_a_question_and_lifts_nothing(evening: Evening) -> None:
    row = RestrictionFactory.create(athlete=evening.athlete, review_on=days_ago(1), side="left")

    page = TodayPage.of(evening.coach)

    assert [(line.row.pk, line.what) for line in page.reviews] == [(row.pk, "left knee")]
    assert list(Restriction.objects.standing()) == [row]


def test_review_that_is_not_due_asks_nothing(evening: Evening) -> None:
    RestrictionFactory.create(athlete=evening.athlete, review_on=today() + timedelta(days=1))

    assert TodayPage.of(evening.coach).reviews == []


def test_card_that_changed_since_it_was_printed_is_named(evening: Evening) -> None:
    note_copies(cards=[(evening.card().pk, 1)], kind=CopyKind.PRINTED)
    assert TodayPage.of(evening.coach).copies == []

    restrict_knee(evening, evening.athlete)

    lines = TodayPage.of(evening.coach).copies
    assert [(line.card.pk, str(line.kind)) for line in lines] == [(evening.card().pk, "printed")]


def test_new_copy_answers_a_change_that_is_not_of_health(evening: Evening) -> None:
    note_copies(cards=[(evening.card().pk, 1)], kind=CopyKind.PRINTED)
    CardRevisionFactory.create(card=evening.card(), number=2, reason="renewed")
    Card.objects.filter(pk=evening.card().pk).update(revision_number=2)
    assert [line.card for line in TodayPage.of(evening.coach).copies] == [evening.card()]

    note_copies(cards=[(evening.card().pk, 2)], kind=CopyKind.PRINTED)

    assert TodayPage.of(evening.coach).copies == []


def test_assistant_reads_that_it_hurts_and_no_note(evening: Evening) -> None:
    PainReportFactory.create(athlete=evening.athlete, note="since the fall on Sunday")
    RestrictionFactory.create(athlete=evening.athlete, review_on=today(), diagnosis="meniscus tear")

    assert "since the fall on Sunday" in text_for(evening.cast, "coach")
    text = text_for(evening.cast, "assistant")
    assert "knee, 4 of 10" in text
    assert [word for word in ("since the fall", "meniscus", "Look at again") if word in text] == []


def test_head_coach_reads_availability_and_no_more(evening: Evening) -> None:
    AvailabilityFactory.create(athlete=evening.athlete, status="out", can_do="bike only")
    RestrictionFactory.create(athlete=evening.athlete, diagnosis="meniscus tear")
    PainReportFactory.create(athlete=evening.cast.team_mate, region="hip")
    RedFlagFactory.create(athlete=evening.cast.team_mate)

    text = text_for(evening.cast, "head coach")

    lines = AvailabilityPage.of(evening.cast.actor_of(Role.HEAD_COACH), "").lines
    assert [(line.name, line.state.words) for line in lines] == [
        ("Ingrid Moss", "out"),
        ("Petra Vane", "full, not settled: ask the coach"),
    ]
    told = ("bike only", "Seniors", "meniscus", "knee", "hip", "knock", "Squat and hinge")
    assert [word for word in told if word in text] == ["bike only", "Seniors"]


def test_new_club_is_told_what_to_do_first(cast: Cast) -> None:
    text = text_for(cast, "owner")

    steps = TodayPage.of(cast.actor_of(Role.OWNER)).steps
    assert [step.is_done for step in steps] == [True, True, False, False, False]
    assert "Say where you train and what stands there" in text


@pytest.mark.parametrize("count", [1, 30])
def test_page_costs_eleven_queries_however_much_is_open(evening: Evening, count: int) -> None:
    athletes = [AthleteFactory.create(squad=evening.cast.squad) for _ in range(count)]
    evening.assign(*athletes, in_days=1)
    for athlete in athletes:
        RedFlagFactory.create(athlete=athlete)
        PainReportFactory.create(athlete=athlete)
        RestrictionFactory.create(athlete=athlete, review_on=today())
    client = evening.cast.client_of("coach")

    with CaptureQueriesContext(connection) as queries:
        client.get(URL)

    assert len(queries) == 11


def test_coach_without_squad_is_sent_to_the_owner(cast: Cast) -> None:
    StaffSquad.objects.filter(staff=cast.staff[Role.OTHER_COACH]).delete()

    text = text_for(cast, "other coach")

    told = [words for words in ("Ask the owner for a squad", "Add a squad", "/plans/add/") if words in text]
    assert (told, len(TodayPage.of(cast.actor_of(Role.OTHER_COACH)).steps)) == (["Ask the owner for a squad"], 1)


def test_new_club_is_asked_nothing_before_there_is_a_card(cast: Cast) -> None:
    assert "Open questions" not in text_for(cast, "owner")
    assert "every copy" not in text_for(cast, "assistant")

    PainReportFactory.create(athlete=cast.athlete)
    assert "Open questions" in text_for(cast, "owner")


def test_coach_without_squad_sees_an_empty_page_with_words(cast: Cast) -> None:
    SquadFactory.create()

    assert "What to do first" in text_for(cast, "other coach")
