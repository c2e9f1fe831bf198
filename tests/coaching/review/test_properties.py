"""What holds of every session, however it is written."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from coachhub.coaching.facts import GroupFacts, LineFacts, SessionFacts
from coachhub.coaching.notation import parse
from coachhub.coaching.review import RULES, Person, Setting, Thresholds, review_session, review_week
from tests.coaching.review.written import EXERCISES, block, session

DOSES = [
    "1 @ 100%",
    "3-5 @ 85%",
    "6 @ 0 RIR",
    "8/side @ last 3 RIR",
    "12-20 @ 6 RIR",
    "5 @ find 2 RIR",
    "30 s hold",
    "20 m",
]
DOSES += ["6 contacts", "3/direction", "8 @ 20 kg t3010", '10 @ "easy"']
SETTING = Setting(60, youth=Person(14))
RESTS = {"rest_heavy", "rest_moderate", "jump_dense"}


@st.composite
def blocks(draw: st.DrawFn, letter: str) -> GroupFacts:
    """Up to four lines of up to five sets, with or without a rest."""
    lines = [
        LineFacts(
            key=f"{letter}{number}",
            exercise_id=draw(st.sampled_from(list(EXERCISES.values()))).id,
            dose=parse(draw(st.sampled_from(DOSES))),
            sets=draw(st.integers(1, 5)),
            rest_after_s=draw(st.sampled_from((0, 30, 90))),
            pair_with=draw(st.sampled_from(("", f"{letter}1", "gone"))),
        )
        for number in range(1, draw(st.integers(0, 4)) + 1)
    ]
    rest = draw(st.none() | st.tuples(st.integers(0, 400), st.none()))
    return block(letter, *lines, rest=rest, is_optional=draw(st.booleans()))


sessions = st.builds(session, blocks("s"), blocks("A"), blocks("B"), blocks("z"))


@given(sessions)
def test_any_session_is_reviewed_alike_each_time(written: SessionFacts) -> None:
    found = review_session(written, SETTING)

    assert review_session(written, SETTING) == found
    assert len({one.key for one in found}) == len(found)
    assert {one.severity for one in found} == {RULES[one.code].severity for one in found}
    assert review_week([written]) == review_week([written])


@given(sessions)
def test_with_every_rule_off_nothing_is_said(written: SessionFacts) -> None:
    off = Thresholds(off=frozenset(RULES))

    assert (review_session(written, SETTING, off), review_week([written], None, off)) == ((), ())


@given(sessions, st.integers(1, 200))
def test_a_longer_rest_never_adds_a_finding_on_rest(written: SessionFacts, more_s: int) -> None:
    rested = replace(written, groups=tuple(_with_rest(group, more_s) for group in written.groups))

    before, after = (
        {one.key for one in review_session(one, SETTING) if one.code in RESTS} for one in (written, rested)
    )

    assert after <= before


def _with_rest(group: GroupFacts, more_s: int) -> GroupFacts:
    return group if group.rest_min_s is None else replace(group, rest_min_s=group.rest_min_s + more_s)
