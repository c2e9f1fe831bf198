"""Every finding, suggestion and rule has its words, and no figure is left as a code."""

from __future__ import annotations

import re
from datetime import date, timedelta

import pytest

from coachhub.coaching.review import (
    RULES,
    USUAL,
    CalendarDay,
    Finding,
    Floor,
    Person,
    Setting,
    read,
    review_athlete,
    review_floor,
    review_session,
    review_week,
)
from coachhub.plans.words_review import RULE_NAMES, SCOPE_NAMES, finding_text, source_text, suggestion_text, unit_text
from tests.coaching.review.test_session_rules import CASES, FILL, HEAVY
from tests.coaching.review.written import rows, session, squat_and_pull, with_line

MONDAY = date(2026, 3, 2)


def every_finding() -> dict[str, Finding]:
    """The first of each code, as the checks themselves make them."""
    found: list[Finding] = []
    for case in CASES:
        found += review_session(session(*case.bad), Setting(200))
    found += review_session(session(FILL, rows("z", 2, "box_jump 9")), Setting(200))
    found += review_session(squat_and_pull(), Setting(40))
    hard = session(rows("A", 5, "rdl 5 @ 90%", "goblet 20 @ last", "bench 4 @ 90%", "box_jump 30", "bound 9/side"))
    for level in ("novice", "intermediate", "advanced"):
        who = Person(15, level)
        found += review_session(hard, Setting(300, youth=who))
        days = [
            CalendarDay(MONDAY + timedelta(days=n), "gym", f"a{n}", "Hinge and press", read(hard)) for n in range(7)
        ]
        days += [CalendarDay(MONDAY + timedelta(days=n), "match", f"m{n}") for n in (3, 5)]
        found += review_athlete(who, days, first=MONDAY, last=MONDAY + timedelta(days=6))
    counts = {"barbell": 9, "bench": 9, "dumbbell": 2, "kettlebell": 1}
    for age in (13, 16, 24):
        found += review_floor(read(hard), Floor((age,) * 60, 1, is_supervised=True, counts=counts))
    found += review_floor(read(hard), Floor((24,), None, is_supervised=False))
    found += review_week([hard], USUAL["deload"])
    found += review_week([session(rows("A", 6, "press_up 8", "lunge 8/side"))])
    return {one.code: one for one in reversed(found)}


FOUND = every_finding()


def test_every_rule_is_among_what_was_found() -> None:
    assert sorted(FOUND) == sorted(RULES)


@pytest.mark.parametrize("code", sorted(RULES))
def test_finding_and_suggestion_read_as_sentences(code: str) -> None:
    for text in (finding_text(FOUND[code]), suggestion_text(FOUND[code])):
        assert re.fullmatch(r"[A-Z0-9].*[.]", text)
        assert not re.search(r"_|%\(|\d{4}-\d\d|None|  |^\s|: *\.", text)


@pytest.mark.parametrize(
    ("code", "finding", "suggestion"),
    [
        (
            "pattern_missing",
            "Missing of the five patterns: lunge.",
            "Add one, or accept it for a day with another purpose.",
        ),
        (
            "rest_heavy",
            "A1 Front squat is heavy, and squat comes round again after 1:59.",
            "At least 2:00 until the same pattern comes: more rest, or another exercise between.",
        ),
        (
            "jump_dense",
            "1 Box jump comes round again after 44 s, 3 times over.",
            "Jumps are deliberate, never conditioning: at least 45 s, or another exercise.",
        ),
        (
            "heavy_legs_before_match",
            "Heavy legs on Tue 3 Mar (Hinge and press: A1), days to the match on Thu 5 Mar: 2.",
            "Earlier, or a short, light primer. Days to a match at least: 3.",
        ),
        ("youth_sets", "A1 Romanian deadlift: 5 sets, under 18.", "Sets of an exercise at most: 4."),
    ],
)
def test_words_of_a_finding(code: str, finding: str, suggestion: str) -> None:
    assert (finding_text(FOUND[code]), suggestion_text(FOUND[code])) == (finding, suggestion)


def test_lift_and_jump_are_named_in_the_suggestion() -> None:
    apart = session(with_line(rows("A", 4, HEAVY, "chin_up 5", "box_jump 4"), 3, pair_with="A1"), FILL)

    (found,) = review_session(apart, Setting(200))

    assert suggestion_text(found) == "Move it directly after A1 Front squat."


def test_jump_in_conditioning_is_named_as_such() -> None:
    (found,) = review_session(session(FILL, rows("z", 1, "box_jump 5")), Setting(200))

    assert finding_text(found) == "1 Box jump is a jump in a part for conditioning."


def test_doses_of_an_athlete_are_said_with_session_day_and_lines() -> None:
    written = read(session(rows("A", 5, "goblet 8 @ last", "row 8/side @ last")))
    day = CalendarDay(MONDAY, "gym", "a1", "Squat and pull", written)

    (found,) = review_athlete(Person(15), [day], first=MONDAY, last=MONDAY)

    assert finding_text(found) == "Squat and pull on Mon 2 Mar, A1, A2: 5 sets, under 18."


def test_every_rule_has_its_name_and_unit() -> None:
    assert sorted(RULE_NAMES) == sorted(RULES)
    assert all(bool(unit_text(rule)) == (rule.default is not None) for rule in RULES.values())
    assert {rule.scope for rule in RULES.values()} == set(SCOPE_NAMES)
    assert source_text(RULES["jump_dense"]) == "common practice"
    assert source_text(RULES["ratio_adults"]).startswith("NSCA")
