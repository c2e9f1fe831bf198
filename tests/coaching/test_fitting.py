"""A plan's sessions on the gym slots of a season."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, time, timedelta
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coachhub.coaching.fitting import (
    DEFAULT_RULES,
    FitRule,
    Opening,
    Role,
    Season,
    ToPlace,
    Unplaced,
    distances,
    fit,
    hardly_played,
    week_start,
)

MONDAY = date(2026, 3, 2)
SATURDAY = MONDAY + timedelta(days=5)
WEEK = tuple(MONDAY + timedelta(days=n) for n in range(7))


def opening(day: int, minutes: int = 60) -> Opening:
    return Opening(MONDAY + timedelta(days=day), time(18), minutes, venue_id=1, slot_id=1)


def to_place(role: Role, order: int = 1, **more: object) -> ToPlace:
    values = {"session_id": order, "week": 1, "minutes": 60, "is_heavy": role == "main", **more}
    return ToPlace(order=order, role=role, **values)  # type: ignore[arg-type]


def season(*days: int, matches: tuple[date, ...] = (SATURDAY,), **more: object) -> Season:
    return Season(MONDAY, tuple(opening(day) for day in days), matches, **more)  # type: ignore[arg-type]


def days_of(*sessions: ToPlace, on: Season) -> dict[str, str]:
    return {one.session.role: one.opening.on.strftime("%a") for one in fit(sessions, on).placed}


def why_not(one: Unplaced) -> list[str]:
    return [step.code for step in one.why]


@pytest.mark.parametrize(
    ("role", "day"),
    # Common practice, as in the table of a match week: MD-4 main strength, MD-3 second load day, MD-2 speed and power,
    # MD-1 priming, MD+1 recovery and a top-up for those who did not play.
    [("main", "Tue"), ("second", "Wed"), ("power", "Thu"), ("primer", "Fri"), ("recovery", "Sun"), ("extra", "Sun")],
)
def test_each_role_goes_where_a_match_week_has_it(role: Role, day: str) -> None:
    assert days_of(to_place(role), on=season(*range(7))) == {role: day}


def test_whole_match_week_is_laid_out() -> None:
    roles: tuple[Role, ...] = ("main", "second", "power", "primer", "recovery")
    sessions = [to_place(role, order) for order, role in enumerate(roles, 1)]
    assert days_of(*sessions, on=season(*range(7))) == {
        "main": "Tue", "second": "Wed", "power": "Thu", "primer": "Fri", "recovery": "Sun",
    }  # fmt: skip


def test_main_session_takes_the_second_best_day_where_the_best_has_no_slot() -> None:
    assert days_of(to_place("main"), on=season(0, 2, 4)) == {"main": "Wed"}


def test_more_important_session_has_the_better_day_where_only_one_is_left() -> None:
    both = [to_place("main", 1), to_place("second", 2, is_heavy=True)]
    assert days_of(*both, on=season(0, 2, 4)) == {"second": "Mon", "main": "Wed"}


def test_week_with_two_slots_leaves_the_less_important_session_out_and_says_why() -> None:
    sessions = [to_place("power", 1), to_place("main", 2), to_place("second", 3)]
    found = fit(sessions, season(1, 3))
    assert [(one.session.role, one.opening.on.strftime("%a")) for one in found.placed] == [
        ("main", "Tue"),
        ("second", "Thu"),
    ]
    assert [(one.session.role, why_not(one)) for one in found.unplaced] == [("power", ["day_taken", "day_taken"])]


@pytest.mark.parametrize(("day", "code"), [(4, "near_match"), (5, "match_day"), (6, "near_match")])
def test_heavy_session_is_never_placed_around_a_match(day: int, code: str) -> None:
    (left,) = fit([to_place("main")], season(day)).unplaced
    assert why_not(left) == [code]


def test_heavy_sessions_never_stand_on_consecutive_days() -> None:
    both = [to_place("main", 1), to_place("second", 2, is_heavy=True)]
    assert days_of(*both, on=season(0, 1, 2, matches=())) == {"main": "Mon", "second": "Wed"}
    (left,) = fit(both, season(0, 1, matches=())).unplaced
    assert why_not(left) == ["day_taken", "heavy_next_to_heavy", "heavy_next_to_heavy"]


def test_heavy_day_of_another_squad_is_kept_clear_of() -> None:
    others = season(1, 2, matches=(), heavy_days=frozenset({MONDAY}))
    assert days_of(to_place("main"), on=others) == {"main": "Wed"}


def test_session_longer_than_the_slot_is_not_placed() -> None:
    (left,) = fit([to_place("any", minutes=75)], season(1)).unplaced
    assert dict(left.why[0].params) == {"on": "2026-03-03", "minutes": "60", "needs": "75"}


def test_holiday_is_kept_free_and_named() -> None:
    (left,) = fit([to_place("main")], season(1, closed={WEEK[1]: "holiday"})).unplaced
    assert [(step.code, dict(step.params)) for step in left.why] == [
        ("closed", {"on": "2026-03-03", "reason": "holiday"})
    ]


def test_week_without_a_slot_says_so() -> None:
    (left,) = fit([to_place("main")], season()).unplaced
    assert why_not(left) == ["no_slot"]


def test_variants_of_a_week_follow_whether_there_is_a_match() -> None:
    both = [to_place("main", 1, variant="match_week"), to_place("second", 2, variant="free_week")]
    assert days_of(*both, on=season(1, 3)) == {"main": "Tue"}
    assert days_of(*both, on=season(1, 3, matches=())) == {"second": "Tue"}


def test_moved_match_moves_its_sessions_and_leaves_the_rest() -> None:
    sessions = [to_place("any", 1), to_place("main", 2), to_place("primer", 3)]
    before = season(0, 1, 2, 4, 5)
    standing = {(one.session.session_id, 1): one.opening.on for one in fit(sessions, before).placed}
    after = fit(sessions, replace(before, matches=(SATURDAY + timedelta(days=1),), standing=standing))
    moved = {one.session.role: (one.from_on, one.opening.on) for one in after.placed if one.from_on}
    assert moved == {"main": (WEEK[1], WEEK[2]), "primer": (WEEK[4], WEEK[5])}


def test_rule_of_the_coach_goes_before_the_usual() -> None:
    rules = [FitRule("main", (-5,)), *(rule for rule in DEFAULT_RULES if rule.role != "main")]
    (placed,) = fit([to_place("main")], season(*range(7)), rules).placed
    assert placed.opening.on == MONDAY


def test_second_week_of_the_plan_lies_in_the_second_week() -> None:
    late = Season(WEEK[3], tuple(opening(day) for day in (0, 8, 9)), (SATURDAY + timedelta(days=7),))
    assert week_start(WEEK[3], 2) == MONDAY + timedelta(days=7)
    assert days_of(to_place("main", week=2), on=late) == {"main": "Tue"}
    (left,) = fit([to_place("main")], late).unplaced  # its Monday is before the start
    assert why_not(left) == ["no_slot"]


def test_distances_name_the_match_before_and_the_one_after() -> None:
    assert distances(WEEK[2], (MONDAY, SATURDAY)) == (-3, 2)
    assert distances(SATURDAY, (SATURDAY,)) == (0,)
    assert distances(MONDAY, ()) == ()


def test_extra_is_for_those_of_whom_few_minutes_are_known() -> None:
    assert hardly_played({1: 0, 2: 19, 3: 20, 4: 60}) == {1, 2}


@st.composite
def seasons(draw: st.DrawFn) -> tuple[list[ToPlace], Season]:
    some: tuple[Role, ...] = ("main", "second", "power", "primer", "recovery", "any")
    roles = draw(st.lists(st.sampled_from(some), max_size=4))
    sessions = [
        to_place(role, n, is_heavy=draw(st.booleans()), minutes=draw(st.sampled_from((30, 60, 90))))
        for n, role in enumerate(roles, 1)
    ]
    days = sorted(draw(st.sets(st.integers(0, 6), max_size=5)))
    matches = tuple(MONDAY + timedelta(days=n) for n in sorted(draw(st.sets(st.integers(-2, 9), max_size=2))))
    return sessions, season(*days, matches=matches)


@settings(max_examples=200)
@given(seasons())
def test_nothing_is_lost_doubled_or_heavy_where_it_must_not_be(case: tuple[list[ToPlace], Season]) -> None:
    sessions, on = case
    found = fit(sessions, on)
    placed = [one.session for one in found.placed]
    assert sorted([*placed, *(one.session for one in found.unplaced)], key=lambda one: one.order) == sessions
    assert len({one.opening for one in found.placed}) == len(placed)
    assert all(one.session.minutes <= one.opening.minutes for one in found.placed)
    heavy = sorted(one.opening.on for one in found.placed if one.session.is_heavy)
    assert not {day for one in heavy for day in distances(one, on.matches)} & {-1, 0, 1}
    assert all((after - before).days > 1 for before, after in pairwise(heavy))


@settings(max_examples=100)
@given(seasons())
def test_what_stands_as_fitted_is_not_moved(case: tuple[list[ToPlace], Season]) -> None:
    sessions, on = case
    first = fit(sessions, on)
    standing = {(one.session.session_id, 1): one.opening.on for one in first.placed}
    again = fit(sessions, replace(on, standing=standing))
    assert [one.opening for one in again.placed] == [one.opening for one in first.placed]
    assert not [one for one in again.placed if one.from_on]
