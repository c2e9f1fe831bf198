"""A squad's plan laid on its calendar: previewed, confirmed, moved; what is begun or over is left."""

from __future__ import annotations

from datetime import date, time, timedelta
from uuid import uuid4

import pytest
from django.core.exceptions import PermissionDenied, ValidationError
from django.db import connection
from django.test.utils import CaptureQueriesContext

from coachhub.base.clock import now, today
from coachhub.cards.actions import note_copies
from coachhub.cards.actions.fitting import Placing, move_assignment, place_plan
from coachhub.cards.actions.runs import work_run
from coachhub.cards.models import Assignment, AssignmentRun, Card, CardRevision, CopyKind
from coachhub.cards.queries.copies import old_copies
from coachhub.cards.queries.fitting import PlanFit, fit_plan, start_of
from coachhub.coaching.series import monday_of
from coachhub.plans.models import Plan, Session
from coachhub.season.models import Absence, GymSlot, Happening, MatchDay
from tests.cards.conftest import Evening
from tests.cast import Cast, Role
from tests.factories import SessionFactory, VenueFactory

pytestmark = pytest.mark.django_db

WEEKS = 2
WEEK = timedelta(weeks=1)
MONDAY = monday_of(today()) + timedelta(weeks=1)
TUESDAY, WEDNESDAY, FRIDAY, SATURDAY, SUNDAY = (MONDAY + timedelta(days=n) for n in (1, 2, 4, 5, 6))


@pytest.fixture
def season(evening: Evening) -> Evening:
    """Next week a match on Saturday and an hour each day; main strength once a week, a primer before the match."""
    Plan.objects.filter(pk=evening.cast.plan.pk).update(weeks=WEEKS, squad=evening.cast.squad)
    Session.objects.exclude(pk=evening.session.pk).update(archived_at=now())
    Session.objects.filter(pk=evening.session.pk).update(role="main", week_to=WEEKS, day=1)
    SessionFactory.create(plan=evening.cast.plan, name="Primer", role="primer", day=2, week_to=WEEKS)
    for weekday in range(7):
        GymSlot.objects.create(
            squad=evening.cast.squad,
            venue=evening.cast.venue,
            weekday=weekday,
            starts_at=time(18),
            minutes=75,
            from_on=today() - timedelta(days=60),
        )
    MatchDay.objects.create(squad=evening.cast.squad, on_date=SATURDAY, opponent="Fen Gate")
    Assignment.objects.update(cancelled_at=now())
    return evening


def found(evening: Evening, starts_on: date = MONDAY) -> PlanFit:
    return fit_plan(Plan.objects.get(pk=evening.cast.plan.pk), evening.cast.squad, starts_on)


def place(evening: Evening, seen: str = "") -> Placing:
    plan = Plan.objects.get(pk=evening.cast.plan.pk)
    seen = seen or found(evening).digest
    return place_plan(actor=evening.coach, plan=plan, starts_on=MONDAY, seen=seen, uuid=uuid4())


def placed_and_given(evening: Evening) -> None:
    run = place(evening).run
    assert run is not None
    work_run(run.pk)


def stands() -> list[tuple[str, int, date]]:
    rows = Assignment.objects.live().order_by("on_date")
    return [(row.session.name, row.week, row.on_date) for row in rows.select_related("session")]


def move_match(on: date) -> None:
    MatchDay.objects.update(on_date=on)


def test_sessions_are_laid_around_the_match_before_anything_is_written(season: Evening) -> None:
    fit = found(season)
    days = [(fit.sessions[one.session.session_id].name, one.opening.on) for one in fit.new if one.session.week == 1]
    assert days == [("Squat and hinge", TUESDAY), ("Primer", FRIDAY)]
    assert ([one.session.week for one in fit.unplaced], stands()) == ([2], [])  # the primer finds no match in week 2


def test_confirmed_preview_gives_everybody_of_the_squad_their_cards(season: Evening) -> None:
    placed_and_given(season)
    assert stands()[:2] == [("Squat and hinge", 1, TUESDAY), ("Primer", 1, FRIDAY)]
    assert {row.venue for row in Assignment.objects.live()} == {season.cast.venue}
    assert Card.objects.filter(assignment__on_date=TUESDAY).count() == len(AssignmentRun.objects.get().athlete_ids)


def test_plan_that_stands_is_neither_given_nor_moved_again(season: Evening) -> None:
    placed_and_given(season)
    again = found(season, start_of(season.cast.plan))
    assert (again.starts_on, again.new, again.moves) == (MONDAY, (), ())


def test_moved_match_moves_its_sessions_and_leaves_the_others(season: Evening) -> None:
    placed_and_given(season)
    move_match(SUNDAY)
    moves = [(one.from_on, one.opening.on) for one in found(season).moves]
    # The Monday after is MD+1 now: what is heavy there moves too.
    assert moves == [(TUESDAY, WEDNESDAY), (FRIDAY, SATURDAY), (MONDAY + WEEK, TUESDAY + WEEK)]
    assert place(season).moved == 3
    assert stands()[:2] == [("Squat and hinge", 1, WEDNESDAY), ("Primer", 1, SATURDAY)]
    assert found(season).moves == ()


def test_begun_session_stays_and_the_other_still_moves(season: Evening) -> None:
    placed_and_given(season)
    Card.objects.filter(assignment__on_date=TUESDAY, athlete=season.athlete).update(started_at=now())
    move_match(SUNDAY)
    assert [one.opening.on for one in found(season).moves if one.session.week == 1] == [SATURDAY]


def test_session_without_a_place_stays_where_it_stands_and_says_why(season: Evening) -> None:
    placed_and_given(season)
    GymSlot.objects.exclude(weekday=4).delete()
    move_match(FRIDAY)
    fit = found(season)
    left = {one.session.role: one.why[-1].code for one in fit.unplaced if one.session.week == 1}
    assert left == {"main": "match_day", "primer": "not_its_day"}
    assert [one for one in fit.moves if one.session.week == 1] == []


def test_days_that_are_over_are_not_touched(season: Evening) -> None:
    last_monday = MONDAY - timedelta(weeks=2)
    fit = found(season, last_monday)
    assert [one for one in fit.new if one.opening.on < today()] == []
    weeks = [one.session.week for one in fit.placed] + [one.session.week for one in fit.unplaced]
    assert set(weeks) == {2}


def test_plan_given_once_before_is_given_again_from_its_first_week(season: Evening) -> None:
    long_ago = Assignment.objects.create(
        session=season.session, squad=season.cast.squad, venue=season.cast.venue, week=1, created_at=now(),
        on_date=MONDAY - timedelta(weeks=2),
    )  # fmt: skip
    assert long_ago.week == 1
    assert [one.opening.on for one in found(season).new if one.session.week == 1] == [TUESDAY, FRIDAY]


def test_later_start_moves_what_is_given_instead_of_giving_it_twice(season: Evening) -> None:
    placed_and_given(season)
    fit = found(season, MONDAY + 4 * WEEK)
    assert ({one.session.role for one in fit.new}, len(fit.moves)) == (set(), 2)


def test_holiday_leaves_no_slot_and_is_named(season: Evening) -> None:
    Happening.objects.create(
        squad=season.cast.squad, kind="holiday", name="Break", from_on=MONDAY, to_on=SUNDAY, weekdays=0
    )
    first = next(one for one in found(season).unplaced if one.session.week == 1)
    assert {step.code for step in first.why} == {"closed"}


def test_preview_that_is_out_of_date_writes_nothing(season: Evening) -> None:
    seen = found(season).digest
    move_match(SUNDAY)
    with pytest.raises(ValidationError, match="Something has changed meanwhile"):
        place(season, seen)
    assert not AssignmentRun.objects.exists()


@pytest.mark.parametrize("role", [Role.ASSISTANT, Role.OTHER_COACH, Role.CLINICIAN])
def test_placing_is_for_those_who_may_change_the_plan(season: Evening, role: Role) -> None:
    plan = Plan.objects.get(pk=season.cast.plan.pk)
    with pytest.raises(PermissionDenied):
        place_plan(actor=season.cast.actor_of(role), plan=plan, starts_on=MONDAY, seen="", uuid=uuid4())


def given(season: Evening) -> Assignment:
    return season.assign(season.athlete, season.cast.team_mate, in_days=1)


def move(season: Evening, row: Assignment, days: int = 1) -> bool:
    venue = VenueFactory.create()
    return move_assignment(actor=season.coach, assignment=row, on_date=row.on_date + timedelta(days=days), venue=venue)


def test_moved_assignment_makes_every_card_anew_and_asks_for_printed_copies(season: Evening) -> None:
    row = given(season)
    card = row.cards.get(athlete=season.athlete)
    note_copies(cards=[(card.pk, 1)], kind=CopyKind.PRINTED)
    assert move(season, Assignment.objects.get(pk=row.pk))
    newest = CardRevision.objects.get(card=card, number=2)
    assert (newest.reason, newest.lines.count()) == ("moved", 3)
    assert [copy.card for copy in old_copies(Card.objects.all(), today())] == [card]
    assert Assignment.objects.get(pk=row.pk).on_date == row.on_date + timedelta(days=1)


def test_assignment_with_a_begun_card_does_not_move(season: Evening) -> None:
    row = given(season)
    row.cards.filter(athlete=season.athlete).update(started_at=now())
    assert not move(season, row)
    assert Assignment.objects.get(pk=row.pk).on_date == row.on_date
    assert {card.revision_number for card in row.cards.all()} == {1}


def test_assignment_that_somebody_moved_meanwhile_does_not_move_again(season: Evening) -> None:
    row, stale = given(season), Assignment.objects.order_by("pk").last()
    assert stale is not None
    assert (move(season, row), move(season, stale, days=2)) == (True, False)


def test_absence_of_the_new_day_is_on_the_moved_card(season: Evening) -> None:
    row = given(season)
    day = row.on_date + timedelta(days=1)
    Absence.objects.create(athlete=season.athlete, from_on=day, to_on=day, reason="away")
    move(season, row)
    said = {card.athlete: [one.status for one in card.attendance.all()] for card in row.cards.all()}
    assert said == {season.athlete: ["absent"], season.cast.team_mate: []}


def test_preview_costs_the_same_for_2_and_30_sessions(season: Evening, cast: Cast) -> None:
    costs = []
    for more in (0, 28):
        SessionFactory.create_batch(more, plan=cast.plan, week_to=WEEKS)
        with CaptureQueriesContext(connection) as asked:
            found(season)
        costs.append(len(asked))
    assert costs[0] == costs[1] <= 16
