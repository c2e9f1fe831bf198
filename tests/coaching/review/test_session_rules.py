"""Each check of a session: one that triggers it, one that just does not, and what it says."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Any

import pytest

from coachhub.coaching.facts import GroupFacts, SessionFacts
from coachhub.coaching.review import RULES, Finding, Person, Setting, Thresholds, review_session
from coachhub.coaching.review.session import CHECKS
from tests.coaching.review.written import rows, session, squat_and_pull, with_line

ROOMY = Setting(200)
FILL = rows("Z", 2, "rdl 8 @ 4 RIR", "goblet 8", "lunge 8/side", "press_up 8", "row 8/side", rest=(90, 90))


@dataclass(frozen=True)
class Case:
    code: str
    bad: tuple[GroupFacts, ...]
    good: tuple[GroupFacts, ...]
    labels: tuple[str, ...]
    found: str
    limit: str
    suggestion: str
    params: dict[str, str]


def pair(first: str, second: str, between_s: int = 0, **more: Any) -> tuple[GroupFacts, ...]:
    return (with_line(rows("A", 4, first, second, **{"rest": (180, 180), **more}), 1, rest_after_s=between_s), FILL)


HEAVY = "front_squat 5 @ 85%"
CASES = [
    Case(
        "pattern_missing",
        (rows("A", 3, "rdl 8 @ 3 RIR", "bench 8 @ 3 RIR", "row 8/side", "goblet 8"),),
        (rows("A", 3, "rdl 8 @ 3 RIR", "bench 8 @ 3 RIR", "row 8/side", "goblet 8", "lunge 6/side"),),
        (),
        "4",
        "5",
        "add_pattern",
        {"patterns": "lunge"},
    ),
    Case(
        "speed_after_strength",
        (FILL, rows("B", 3, "sprint 10 m")),
        (rows("B", 3, "sprint 10 m"), FILL),
        ("B1",),
        "",
        "",
        "put_first",
        {"name": "Sprint start", "after": "Z1"},
    ),
    Case(
        "jump_pair_apart",
        (with_line(rows("A", 4, HEAVY, "chin_up 5", "box_jump 4"), 3, pair_with="A1"), FILL),
        (with_line(rows("A", 4, HEAVY, "box_jump 4", "chin_up 5"), 2, pair_with="A1"), FILL),
        ("A3",),
        "",
        "",
        "put_behind_lift",
        {"name": "Box jump", "lift": "A1", "lift_name": "Front squat"},
    ),
    Case(
        "jump_pair_reps",
        pair(HEAVY, "box_jump 9"),
        pair(HEAVY, "box_jump 8"),
        ("A2",),
        "4",
        "3",
        "match_reps",
        {"name": "Box jump", "reps": "9", "lift": "A1", "lift_reps": "5"},
    ),
    Case(
        "jump_dense",
        (rows("s", 3, "box_jump 5", rest=(44, 60)), FILL),
        (rows("s", 3, "box_jump 5", rest=(45, 60)), FILL),
        ("1",),
        "44",
        "45",
        "jump_apart",
        {"name": "Box jump", "rounds": "3", "part": "athleticism"},
    ),
    Case(
        "grip_in_row",
        pair("deadlift 5 @ 85%", "chin_up 5", 59),
        pair("deadlift 5 @ 85%", "chin_up 5", 60),
        ("A1", "A2"),
        "59",
        "60",
        "other_between",
        {"first": "Hex bar deadlift", "second": "Chin-up"},
    ),
    Case(
        "trunk_in_row",
        pair(HEAVY, "plank 30 s", 59),
        pair(HEAVY, "plank 30 s", 60),
        ("A1", "A2"),
        "59",
        "60",
        "other_between",
        {"first": "Front squat", "second": "Side plank"},
    ),
    Case(
        "rest_heavy",
        (rows("A", 4, HEAVY, rest=(119, 150)), FILL),
        (rows("A", 4, HEAVY, rest=(120, 150)), FILL),
        ("A1",),
        "119",
        "120",
        "more_rest",
        {"name": "Front squat", "pattern": "squat"},
    ),
    Case(
        "rest_moderate",
        (rows("A", 3, "rdl 10 @ 2 RIR", rest=(29, 40)), FILL),
        (rows("A", 3, "rdl 10 @ 2 RIR", rest=(30, 40)), FILL),
        ("A1",),
        "29",
        "30",
        "more_rest",
        {"name": "Romanian deadlift", "pattern": "hinge"},
    ),
    Case(
        "rest_long",
        (rows("A", 4, HEAVY, rest=(180, 301)), FILL),
        (rows("A", 4, HEAVY, rest=(180, 300)), FILL),
        ("A",),
        "301",
        "300",
        "shorter_rest",
        {},
    ),
]


def codes(found: tuple[Finding, ...]) -> list[str]:
    return [one.code for one in found]


def test_every_check_has_its_case() -> None:
    assert sorted(case.code for case in CASES) == sorted(CHECKS)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.code)
def test_bad_session_gives_that_finding_alone(case: Case) -> None:
    (found,) = review_session(session(*case.bad), ROOMY)

    assert (found.code, found.severity, found.labels) == (case.code, RULES[case.code].severity, case.labels)
    assert (found.found, found.limit, found.suggestion) == (case.found, case.limit, case.suggestion)
    assert dict(found.params) == case.params


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.code)
def test_session_at_the_limit_gives_none(case: Case) -> None:
    assert review_session(session(*case.good), ROOMY) == ()


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.code)
def test_rule_that_is_off_says_nothing(case: Case) -> None:
    assert review_session(session(*case.bad), ROOMY, Thresholds(off=frozenset({case.code}))) == ()


def test_threshold_of_the_club_goes_before_the_usual() -> None:
    heavy = session(rows("A", 4, HEAVY, rest=(150, 180)), FILL)

    found = review_session(heavy, ROOMY, Thresholds(values={"rest_heavy": Decimal(180)}))

    assert [(one.code, one.found, one.limit) for one in found] == [("rest_heavy", "150", "180")]


def test_session_over_its_slot_is_remarked_by_the_minute() -> None:
    written = squat_and_pull()

    (over,) = review_session(written, Setting(40))

    assert (over.code, over.severity, dict(over.params)["slot"], over.suggestion) == (
        "over_slot",
        "warning",
        "40",
        "cut_time",
    )
    minutes = int(dict(over.params)["minutes"])
    assert over.found == str(minutes - 40)
    assert review_session(written, Setting(minutes)) == ()
    assert codes(review_session(written, Setting(minutes, bare_minutes=1))) == ["over_slot"]


def test_optional_block_takes_no_time_from_the_slot() -> None:
    long = rows("B", 10, "carry 60 m", rest=(300, 300), is_optional=True)
    needed = next(slot for slot in range(10, 200) if review_session(session(FILL), Setting(slot)) == ())

    assert review_session(session(FILL, long), Setting(needed + 2)) == ()


YOUTH_CASES = [
    ("youth_sets", "goblet 8 @ last", 5, ("5", "4")),
    ("youth_reps_many", "goblet 16 @ last", 3, ("16", "15")),
    ("youth_reps_few", "goblet 5 @ last", 3, ("5", "6")),
    ("youth_load", "rdl 6 @ 82.5%", 3, ("82.5", "80")),
]


@pytest.mark.parametrize(("code", "text", "sets", "figures"), YOUTH_CASES)
def test_dose_outside_youth_guidance_is_remarked(code: str, text: str, sets: int, figures: tuple[str, str]) -> None:
    written = session(rows("A", sets, text, rest=(120, 120)), FILL)

    young = review_session(written, Setting(200, youth=Person(15)))

    assert [(one.code, one.labels, one.found, one.limit) for one in young] == [(code, ("A1",), *figures)]
    assert review_session(written, Setting(200, youth=Person(18))) == ()


@pytest.mark.parametrize("text", ["goblet 6 @ last", "goblet 15 @ last", "rdl 6 @ 80%", "chin_up 3"])
def test_dose_within_youth_guidance_is_not_remarked(text: str) -> None:
    written = session(rows("A", 4, text, rest=(120, 120)), FILL)

    assert review_session(written, Setting(200, youth=Person(15))) == ()


@pytest.mark.parametrize(
    ("who", "expected"),
    [
        (Person(15, "novice"), ["youth_sets_novice", "youth_reps_few", "youth_load_novice"]),
        (Person(15, "intermediate"), ["youth_reps_few", "youth_load"]),
        (Person(15, "advanced"), []),
        (Person(16, "intermediate"), []),
        (Person(17, "novice"), ["youth_sets_novice", "youth_reps_few", "youth_load_novice"]),
    ],
)
def test_youth_guidance_goes_by_level_and_age(who: Person, expected: list[str]) -> None:
    written: SessionFacts = session(rows("A", 4, "rdl 5 @ 85%", rest=(180, 180)), FILL)

    assert codes(review_session(written, Setting(200, youth=who))) == expected


def test_finding_keeps_its_key_while_only_figures_move() -> None:
    short, shorter = (
        review_session(session(rows("A", 4, HEAVY, rest=(rest, 200)), FILL), ROOMY)[0] for rest in (90, 60)
    )

    assert (short.key, shorter.key) == ("rest_heavy:A1", "rest_heavy:A1")
    assert short.found != shorter.found
