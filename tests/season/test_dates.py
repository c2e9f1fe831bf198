"""Series and single dates: changed, called off and taken out, for one day or from a day on."""

from __future__ import annotations

from datetime import date, time, timedelta

import pytest
from django.core.exceptions import PermissionDenied, ValidationError

from coachhub.people.models import Squad
from coachhub.season.actions import (
    ChangedMeanwhileError,
    Scope,
    add_happening,
    add_match,
    add_slot,
    call_off,
    cancel_match,
    change_dates,
    edit_match,
    remove_dates,
    remove_match,
    set_minutes,
)
from coachhub.season.models import GymSlot, Happening, MatchDay, MatchMinutes
from coachhub.season.queries import span_of_squads
from tests.cast import Cast, Role
from tests.season.dates import MONDAY, SUNDAY, slot, training

SECOND_WEEK = MONDAY + timedelta(days=7)


def days(squad: Squad, kind: str = "training") -> list[tuple[str, str]]:
    """Day and hour of what takes place in three weeks."""
    span = span_of_squads([squad.pk], MONDAY, SUNDAY)
    return [(f"{one.on_date:%d}", f"{one.starts_at:%H}") for one in span.of_kind(kind)]


def off(squad: Squad) -> list[str]:
    span = span_of_squads([squad.pk], MONDAY, SUNDAY)
    return [f"{one.on_date:%d}" for one in span.occasions if one.is_cancelled]


def test_one_day_of_a_series_moves_alone(cast: Cast) -> None:
    row = training(cast.squad)
    values = {"name": "", "place": "", "from_on": date(2026, 12, 8), "starts_at": time(20), "minutes": 60}

    change_dates(actor=cast.actor_of(Role.COACH), row=row, on_date=SECOND_WEEK, scope=Scope.ONE, values=values)

    expected = [("30", "18"), ("02", "18"), ("08", "20"), ("09", "18"), ("14", "18"), ("16", "18")]
    assert (days(cast.squad), off(cast.squad)) == (expected, [])


def test_all_from_a_day_on_become_a_series_of_their_own(cast: Cast) -> None:
    row, coach = training(cast.squad), cast.actor_of(Role.COACH)
    call_off(actor=coach, row=row, on_date=date(2026, 12, 16), scope=Scope.ONE)

    change_dates(actor=coach, row=row, on_date=SECOND_WEEK, scope=Scope.FROM, values={"starts_at": time(19)})

    assert days(cast.squad) == [("30", "18"), ("02", "18"), ("07", "19"), ("09", "19"), ("14", "19")]
    assert off(cast.squad) == ["16"]
    assert list(Happening.objects.values_list("from_on", "to_on")) == [
        (MONDAY, SECOND_WEEK - timedelta(days=1)),
        (SECOND_WEEK, None),
    ]


def test_all_from_the_first_day_on_are_changed_in_place(cast: Cast) -> None:
    row = training(cast.squad)

    changed = change_dates(
        actor=cast.actor_of(Role.COACH), row=row, on_date=MONDAY, scope=Scope.FROM, values={"starts_at": time(19)}
    )

    assert (changed.pk, changed.sequence, Happening.objects.count()) == (row.pk, 1, 1)


@pytest.mark.parametrize("scope", Scope)
def test_change_sent_twice_is_made_once(cast: Cast, scope: Scope) -> None:
    row, coach = training(cast.squad), cast.actor_of(Role.COACH)
    values = {"starts_at": time(19)}
    change_dates(actor=coach, row=row, on_date=SECOND_WEEK, scope=scope, values=values)
    before = days(cast.squad)

    with pytest.raises(ChangedMeanwhileError):
        change_dates(actor=coach, row=row, on_date=SECOND_WEEK, scope=scope, values=values)

    assert days(cast.squad) == before


def test_day_called_off_stays_and_day_removed_goes(cast: Cast) -> None:
    row, coach = training(cast.squad), cast.actor_of(Role.COACH)

    call_off(actor=coach, row=row, on_date=MONDAY, scope=Scope.ONE)
    remove_dates(actor=coach, row=row, on_date=SECOND_WEEK, scope=Scope.ONE)

    assert days(cast.squad) == [("02", "18"), ("09", "18"), ("14", "18"), ("16", "18")]
    assert off(cast.squad) == ["30"]


@pytest.mark.parametrize("end", [call_off, remove_dates])
def test_series_ended_from_a_day_on_keeps_what_lies_before(cast: Cast, end: object) -> None:
    row = training(cast.squad)

    end(actor=cast.actor_of(Role.COACH), row=row, on_date=SECOND_WEEK, scope=Scope.FROM)  # type: ignore[operator]

    assert (days(cast.squad), off(cast.squad)) == ([("30", "18"), ("02", "18")], [])


def test_series_removed_from_its_first_day_on_is_gone(cast: Cast) -> None:
    row = training(cast.squad)

    remove_dates(actor=cast.actor_of(Role.COACH), row=row, on_date=MONDAY, scope=Scope.FROM)

    assert Happening.objects.count() == 0


def test_slot_of_one_day_moves_to_another_hour(cast: Cast) -> None:
    row, on = slot(cast), date(2026, 12, 8)
    values = {"venue": cast.venue, "from_on": date(2026, 12, 9), "starts_at": time(7), "minutes": 45}

    change_dates(actor=cast.actor_of(Role.COACH), row=row, on_date=on, scope=Scope.ONE, values=values)

    assert days(cast.squad, "slot") == [("01", "17"), ("09", "07"), ("15", "17")]


def test_date_added_twice_is_there_once(cast: Cast) -> None:
    coach = cast.actor_of(Role.COACH)
    for _ in range(2):
        add_happening(actor=coach, squad=cast.squad, kind="holiday", from_on=MONDAY, to_on=SUNDAY)
        add_slot(
            actor=coach,
            squad=cast.squad,
            venue=cast.venue,
            weekday=1,
            starts_at=time(17),
            minutes=60,
            from_on=MONDAY,
            to_on=None,
        )
        add_match(actor=coach, squad=cast.squad, on_date=MONDAY, starts_at=None, opponent="Fen Gate", is_home=False)

    assert [table.objects.count() for table in (Happening, GymSlot, MatchDay)] == [1, 1, 1]


@pytest.mark.parametrize("role", [Role.OTHER_COACH, Role.ASSISTANT, Role.HEAD_COACH, Role.CLINICIAN, Role.ATHLETE])
def test_nobody_else_writes_a_squads_dates(cast: Cast, role: Role) -> None:
    row, actor = training(cast.squad), cast.actor_of(role)

    with pytest.raises(PermissionDenied):
        add_happening(actor=actor, squad=cast.squad, kind="test", from_on=MONDAY, to_on=MONDAY)
    with pytest.raises(PermissionDenied):
        call_off(actor=actor, row=row, on_date=MONDAY, scope=Scope.ONE)


def test_athlete_writes_their_own_dates_alone(cast: Cast) -> None:
    athlete = cast.actor_of(Role.ATHLETE)
    add_happening(actor=athlete, athlete=cast.athlete, kind="sport", from_on=MONDAY, to_on=MONDAY)

    with pytest.raises(PermissionDenied):
        add_happening(actor=athlete, athlete=cast.team_mate, kind="sport", from_on=MONDAY, to_on=MONDAY)

    assert [(row.athlete_id, row.squad_id) for row in Happening.objects.all()] == [(cast.athlete.pk, None)]


def test_match_is_told_apart_from_the_same_one(cast: Cast) -> None:
    coach = cast.actor_of(Role.COACH)
    one, other = (
        add_match(actor=coach, squad=cast.squad, on_date=day, starts_at=None, opponent="Fen Gate", is_home=True)
        for day in (MONDAY, SUNDAY)
    )

    with pytest.raises(ValidationError, match="has this match already"):
        edit_match(actor=coach, match=other, on_date=one.on_date, starts_at=None, opponent="Fen Gate", is_home=True)


def test_minutes_are_noted_changed_and_taken_away(cast: Cast) -> None:
    coach = cast.actor_of(Role.COACH)
    match = MatchDay.objects.create(squad=cast.squad, on_date=MONDAY, opponent="Fen Gate")
    set_minutes(actor=coach, match=match, minutes={cast.athlete.pk: 40, cast.team_mate.pk: 0})

    set_minutes(actor=coach, match=match, minutes={cast.athlete.pk: 55, cast.team_mate.pk: None})

    assert [(row.athlete_id, row.minutes) for row in MatchMinutes.objects.all()] == [(cast.athlete.pk, 55)]
    with pytest.raises(PermissionDenied):
        set_minutes(actor=coach, match=match, minutes={cast.child.pk: 10})
    with pytest.raises(ValidationError, match="call it off instead"):
        remove_match(actor=coach, match=match)


def test_match_called_off_takes_place_after_all(cast: Cast) -> None:
    coach = cast.actor_of(Role.COACH)
    match = MatchDay.objects.create(squad=cast.squad, on_date=MONDAY, opponent="Fen Gate")

    cancel_match(actor=coach, match=match)
    assert off(cast.squad) == ["30"]
    cancel_match(actor=coach, match=match, is_cancelled=False)

    assert (off(cast.squad), match.sequence) == ([], 2)
