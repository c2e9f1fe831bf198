"""What waits for whose word, and who still holds a copy of a card that has changed."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from coachhub.base.actor import Actor
from coachhub.base.clock import now, today
from coachhub.cards.actions import note_copies
from coachhub.cards.models import CopyAnswer, CopyKind
from coachhub.desk.pages.cards_today import TodayPage
from coachhub.desk.pages.waiting import WaitingPage
from coachhub.people.models import Restriction, RestrictionException
from tests.cards.conftest import Evening
from tests.cast import Cast, Role
from tests.desk.evening import restrict_knee
from tests.desk.test_still_full import ASKED
from tests.factories import (
    AthleteFactory,
    CardFactory,
    ExerciseFactory,
    PainReportFactory,
    RedFlagFactory,
    RestrictionFactory,
    StaffFactory,
    days_ago,
)

DOCTOR = "a clinician or doctor"


def waits(actor: Actor) -> list[tuple[str, list[str]]]:
    """Without the questions about availability, which `test_still_full` tries."""
    page = WaitingPage.of(actor)
    asked = {group.whose: [one.what for one in group.questions if one.what != ASKED] for group in page.groups}
    return [(whose, whats) for whose, whats in asked.items() if whats]


def test_each_question_stands_under_whose_word_it_waits_for(cast: Cast) -> None:
    RedFlagFactory.create(athlete=cast.athlete, kind="faint")
    PainReportFactory.create(athlete=cast.athlete, region="hip")
    RestrictionFactory.create(athlete=cast.team_mate, is_clinical=True, review_on=today() + timedelta(days=60))
    RestrictionFactory.create(athlete=cast.team_mate, kind="grip", on_word_of="Nils Reef", review_on=days_ago(1))

    expected = [
        (DOCTOR, ["fainted or nearly", "knee"]),
        ("Cato Lind", ["hip, 4 of 10"]),
        ("Nils Reef", ["heavy grip"]),
    ]
    assert waits(cast.actor_of(Role.CLINICIAN)) == expected
    assert waits(cast.actor_of(Role.COACH)) == [expected[1], expected[0], expected[2]]


def test_oldest_question_comes_first(cast: Cast) -> None:
    for region, days in (("hip", 2), ("foot", 9), ("neck", 5)):
        PainReportFactory.create(athlete=cast.athlete, region=region, on_date=days_ago(days))
    assert waits(cast.actor_of(Role.COACH)) == [
        ("Cato Lind", ["foot, 4 of 10", "neck, 4 of 10", "hip, 4 of 10"]),
    ]


def test_what_is_due_comes_before_what_has_stood_longer(cast: Cast) -> None:
    soon, past = today() + timedelta(days=5), days_ago(1)
    made = (("grip", 90, soon), ("impact", 20, past), ("range", 40, past), ("overhead", 60, None))
    for kind, days, review_on in made:
        RestrictionFactory.create(athlete=cast.athlete, kind=kind, starts_on=days_ago(days), review_on=review_on)
    (group,) = [one for one in WaitingPage.of(cast.actor_of(Role.COACH)).groups if one.whose == "Dr Alder"]
    assert [(one.what, (today() - one.since).days) for one in group.questions] == [
        ("end of range", 40),
        ("impact", 20),
        ("heavy grip", 90),
        ("overhead work", 60),
    ]


@pytest.mark.parametrize(("in_days", "is_asked"), [(-1, True), (0, True), (7, True), (8, False), (None, True)])
def test_review_is_asked_when_near_past_or_never_set(cast: Cast, in_days: int | None, is_asked: bool) -> None:
    review_on = None if in_days is None else today() + timedelta(days=in_days)
    RestrictionFactory.create(athlete=cast.athlete, review_on=review_on)
    assert waits(cast.actor_of(Role.COACH)) == ([("Dr Alder", ["knee"])] if is_asked else [])
    assert Restriction.objects.standing().count() == 1


def test_two_coaches_are_named_together_and_nobody_is_left_without(cast: Cast) -> None:
    StaffFactory.create(role="coach", name="Wim Dale", squads=[cast.squad])
    PainReportFactory.create(athlete=cast.athlete)
    PainReportFactory.create(athlete=AthleteFactory.create())
    assert [whose for whose, _ in waits(cast.actor_of(Role.OWNER))] == [
        "Cato Lind or Wim Dale",
        "the club's owner: no coach has this athlete",
    ]


def test_what_is_settled_waits_no_longer(cast: Cast) -> None:
    user = cast.staff[Role.COACH].user
    PainReportFactory.create(athlete=cast.athlete, cleared_at=now(), cleared_by=user)
    RestrictionFactory.create(
        athlete=cast.athlete, review_on=days_ago(1), lifted_at=now(), lifted_by=user, lifted_on_word_of="Dr Alder"
    )
    text = cast.client_of(Role.COACH).get("/waiting/").content.decode()
    assert waits(cast.actor_of(Role.COACH)) == []
    assert "Nothing waits." in text


def test_nothing_of_another_squad_waits_here(evening: Evening) -> None:
    PainReportFactory.create(athlete=evening.athlete)
    note_copies(cards=[(evening.card().pk, 1)], kind=CopyKind.PRINTED)
    restrict_knee(evening, evening.athlete)
    page = WaitingPage.of(evening.cast.actor_of(Role.OTHER_COACH))
    assert (page.groups, page.copies) == ([], [])


def test_review_answered_by_staying_asks_again_later(cast: Cast) -> None:
    row = RestrictionFactory.create(athlete=cast.athlete, review_on=days_ago(1))
    client, url = cast.client_of(Role.COACH), f"/restrictions/{row.pk}/keep/"
    later = today() + timedelta(days=30)
    assert [client.post(url, {"review_on": str(day)}).status_code for day in (today(), later, later)] == [422, 302, 302]
    row.refresh_from_db()
    assert (row.review_on, row.lifted_at) == (later, None)
    assert waits(cast.actor_of(Role.COACH)) == []


def test_clinicians_hold_is_not_put_off_by_a_coach(cast: Cast) -> None:
    row = RestrictionFactory.create(athlete=cast.athlete, review_on=days_ago(1), is_clinical=True)
    client = cast.client_of(Role.COACH)
    assert client.post(f"/restrictions/{row.pk}/keep/", {"review_on": "2099-01-01"}).status_code == 403
    *_others, group = WaitingPage.of(cast.actor_of(Role.COACH)).groups
    assert group.questions[0].links == ()


def test_exception_that_is_over_holds_again_and_asks(evening: Evening) -> None:
    restrict_knee(evening, evening.athlete)
    client, row = evening.cast.client_of(Role.COACH), Restriction.objects.get()
    sent = {"exercise": evening.squat.exercise_id, "cap_unit": "kg", "on_word_of": "Dr Alder"}
    assert client.post(f"/restrictions/{row.pk}/except/", {**sent, "until_on": str(days_ago(1))}).status_code == 422
    client.post(f"/restrictions/{row.pk}/except/", {**sent, "until_on": str(today())})
    assert evening.line(evening.squat).name == "Front squat"
    later = evening.assign(evening.athlete, in_days=1)
    assert [line.name for line in later.cards.get().revisions.get().lines.filter(label="A1")] == ["Goblet squat"]

    RestrictionException.objects.update(until_on=days_ago(1))
    questions = {one.why for group in WaitingPage.of(evening.coach).groups for one in group.questions}
    assert "exception over: restricted again" in questions


def test_old_copy_stays_until_somebody_ticks_it_off(evening: Evening) -> None:
    card = evening.card()
    note_copies(cards=[(card.pk, 1), (card.pk, 1)], kind=CopyKind.PRINTED)
    restrict_knee(evening, evening.athlete)
    note_copies(cards=[(card.pk, 2)], kind=CopyKind.PRINTED)
    (line,) = WaitingPage.of(evening.coach).copies
    assert (line.card, str(line.kind)) == (card, "printed")

    client = evening.cast.client_of(Role.COACH)
    for sent in ({}, {"copy": "x"}, {"copy": "9" * 40}, {"copy": [line.pk], "kind": "lost"}):
        assert client.post("/waiting/copies/", {"kind": "collected", **sent}).status_code == 302
    assert CopyAnswer.objects.count() == 0
    for kind in ("collected", "seen"):
        client.post("/waiting/copies/", {"copy": [line.pk], "kind": kind})

    answers = CopyAnswer.objects.values_list("kind", "said_by", "copy__revision_number")
    assert list(answers) == [("collected", evening.coach.user_id, 1)] * 2
    assert (WaitingPage.of(evening.coach).copies, TodayPage.of(evening.coach).copies) == ([], [])


def test_old_copy_of_a_past_day_is_still_asked_for(evening: Evening) -> None:
    card = evening.card()
    note_copies(cards=[(card.pk, 1)], kind=CopyKind.OFFLINE)
    restrict_knee(evening, evening.athlete)
    type(evening.assignment).objects.update(on_date=days_ago(2))
    assert [line.card for line in WaitingPage.of(evening.coach).copies] == [card]


def test_assistant_ticks_off_own_squads_copies_alone(evening: Evening) -> None:
    note_copies(cards=[(evening.card().pk, 1)], kind=CopyKind.PRINTED)
    restrict_knee(evening, evening.athlete)
    (line,) = WaitingPage.of(evening.coach).copies
    sent = {"copy": [line.pk], "kind": "seen", "back": "today"}
    for role, answered in ((Role.OTHER_COACH, 0), (Role.ASSISTANT, 1)):
        assert evening.cast.client_of(role).post("/waiting/copies/", sent).status_code == 302
        assert CopyAnswer.objects.count() == answered


def fill(cast: Cast, count: int) -> None:
    for athlete in AthleteFactory.create_batch(count, squad=cast.squad):
        RedFlagFactory.create(athlete=athlete)
        PainReportFactory.create(athlete=athlete)
        row = RestrictionFactory.create(athlete=athlete, is_clinical=True)
        RestrictionException.objects.create(
            restriction=row, exercise=cast.exercise, on_word_of="Dr Alder", until_on=days_ago(1), added_at=now()
        )
        card = CardFactory.create(assignment=cast.assignment, athlete=athlete, revision_number=2)
        note_copies(cards=[(card.pk, 1)], kind=CopyKind.PRINTED)


@pytest.mark.parametrize("count", [1, 30])
def test_page_costs_thirteen_queries_however_much_waits(cast: Cast, count: int) -> None:
    fill(cast, count)
    client = cast.client_of(Role.COACH)
    with CaptureQueriesContext(connection) as queries:
        page = client.get("/waiting/").context["page"]
    assert (page.count, len(page.copies), len(queries)) == (5 * count, count, 13)


def test_nearly_four_hundred_questions_fit_on_the_page(cast: Cast) -> None:
    ExerciseFactory.create()
    fill(cast, 75)
    text = cast.client_of(Role.CLINICIAN).get("/waiting/").content.decode()
    assert text.count("· since ") == 375
