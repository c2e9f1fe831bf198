"""The checks of one athlete's own days, over all squads, matches, trainings and school."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from coachhub.coaching.facts import SessionFacts
from coachhub.coaching.review import RULES, CalendarDay, Finding, Person, Thresholds, read, review_athlete
from coachhub.coaching.review.athlete import DayKind
from tests.coaching.review.written import rows, session, whole_body_for_the_young

MONDAY = date(2026, 3, 2)
ADULT, MINOR = Person(24), Person(15)
HEAVY = session(rows("A", 4, "front_squat 5 @ 85%"))
LIGHT = session(rows("A", 3, "goblet 8 @ last"))
JUMPS = session(rows("s", 3, "box_jump 7", rest=(90, 90)))


def gym(day: int, written: SessionFacts) -> CalendarDay:
    return CalendarDay(MONDAY + timedelta(days=day), "gym", f"c{day}", f"Gym {day}", read(written))


def other(day: int, kind: DayKind = "training", minutes: int | None = None) -> CalendarDay:
    return CalendarDay(MONDAY + timedelta(days=day), kind, f"{kind}{day}", kind, minutes_played=minutes)


def review(who: Person, *days: CalendarDay, off: str = "") -> tuple[Finding, ...]:
    last = MONDAY + timedelta(days=13)
    return review_athlete(who, days, first=MONDAY, last=last, thresholds=Thresholds(off=frozenset({off})))


def contacts(reps: int, sets: int = 10) -> SessionFacts:
    return session(rows("s", sets, f"box_jump {reps}", rest=(90, 90)))


CASES = [
    ("heavy_legs_near", ADULT, [gym(0, HEAVY), gym(1, HEAVY)], [gym(0, HEAVY), gym(2, HEAVY)], ("1", "2")),
    (
        "heavy_legs_before_match",
        ADULT,
        [gym(1, HEAVY), other(3, "match")],
        [gym(0, HEAVY), other(3, "match")],
        ("2", "3"),
    ),
    (
        "heavy_legs_after_match",
        ADULT,
        [other(0, "match"), gym(1, HEAVY)],
        [other(0, "match"), gym(2, HEAVY)],
        ("1", "2"),
    ),
    (
        "contacts_before_match",
        ADULT,
        [gym(1, JUMPS), other(3, "match")],
        [gym(0, JUMPS), other(3, "match")],
        ("21", "20"),
    ),
    ("contacts_novice", Person(24, "novice"), [gym(0, contacts(11))], [gym(0, contacts(10))], ("110", "100")),
    ("contacts_intermediate", ADULT, [gym(0, contacts(13))], [gym(0, contacts(12))], ("130", "120")),
    ("contacts_advanced", Person(24, "advanced"), [gym(0, contacts(15))], [gym(0, contacts(14))], ("150", "140")),
    ("youth_days_near", MINOR, [gym(0, LIGHT), gym(1, LIGHT)], [gym(0, LIGHT), gym(2, LIGHT)], ("1", "2")),
    ("youth_no_day_off", MINOR, [other(day) for day in range(7)], [other(day) for day in range(6)], ("0", "1")),
]


@pytest.mark.parametrize(("code", "who", "bad", "good", "figures"), CASES, ids=[case[0] for case in CASES])
def test_days_that_break_a_rule_give_that_finding_alone(
    code: str, who: Person, bad: list[CalendarDay], good: list[CalendarDay], figures: tuple[str, str]
) -> None:
    (found,) = review(who, *bad)

    assert (found.code, found.severity, (found.found, found.limit)) == (code, RULES[code].severity, figures)
    assert review(who, *good) == ()
    assert review(who, *bad, off=code) == ()


def test_minor_with_strength_on_four_days_is_warned_about() -> None:
    four = [gym(day, LIGHT) for day in (0, 2, 4, 6)]

    (found,) = review(MINOR, *four)

    assert (found.code, found.about, found.found, found.limit) == ("youth_days", "2026-03-02", "4", "3")
    assert review(MINOR, *four[:3]) == ()
    assert review(ADULT, *four) == ()


def test_minor_in_two_squads_is_seen_over_both() -> None:
    """School and other sport count for the day off, not as strength."""
    days = [
        gym(0, LIGHT),
        other(1, "school"),
        gym(2, LIGHT),
        other(3, "other"),
        other(4),
        other(5, "match"),
        gym(6, LIGHT),
    ]

    assert [one.code for one in review(MINOR, *days)] == ["youth_no_day_off"]


def test_heavy_legs_say_which_lines_and_which_match() -> None:
    (found,) = review(ADULT, gym(4, HEAVY), other(5, "match"))

    assert found.key == "heavy_legs_before_match:c4+match5"
    assert dict(found.params) == {"session": "Gym 4", "match": "2026-03-07", "lines": "A1"}
    assert (found.labels, found.suggestion) == (("2026-03-06",), "earlier")


@pytest.mark.parametrize(
    ("minutes", "codes"), [(None, ["heavy_legs_after_match"]), (20, ["heavy_legs_after_match"]), (19, [])]
)
def test_who_hardly_played_may_lift_the_day_after(minutes: int | None, codes: list[str]) -> None:
    assert [one.code for one in review(ADULT, other(0, "match", minutes), gym(1, HEAVY))] == codes


@pytest.mark.parametrize("text", ["front_squat 5 @ 77.5%", "goblet 8 @ 3 RIR", "bench 5 @ 85%", "lunge 8/side @ last"])
def test_what_is_not_heavy_for_legs_may_stand_by_a_match(text: str) -> None:
    assert review(ADULT, gym(2, session(rows("A", 3, text))), other(3, "match")) == ()


def test_youth_doses_are_one_finding_for_each_rule_and_session() -> None:
    written = session(rows("A", 5, "goblet 8 @ last", "row 8/side @ last"), rows("B", 3, "lunge 5/side @ last"))

    found = review(MINOR, gym(0, written))

    assert [(one.code, dict(one.params)["lines"], one.found) for one in found] == [
        ("youth_sets", "A1,A2", "5"),
        ("youth_reps_few", "B1", "5"),
    ]
    assert [one.key for one in found] == ["youth_sets:c0:A1+A2", "youth_reps_few:c0:B1"]


def test_days_before_the_fortnight_are_seen_but_not_remarked_on() -> None:
    before = gym(-1, HEAVY)

    assert [one.code for one in review(ADULT, before, gym(0, HEAVY))] == ["heavy_legs_near"]
    assert review(ADULT, gym(-2, HEAVY), before) == ()


def test_sound_fortnight_of_a_minor_has_no_finding() -> None:
    days = [gym(day, whole_body_for_the_young()) for day in (0, 3, 7, 10)]
    trainings = [other(day) for day in (1, 3, 8, 10)]
    matches = [other(5, "match"), other(12, "match")]

    assert review(Person(14, "novice"), *days, *trainings, *matches) == ()
