"""A slipped digit never becomes the next load. The thresholds are product choices, not published figures."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachhub.coaching.facts import AthleteFacts, DoneSet
from coachhub.coaching.slips import is_far_above
from tests.coaching.samples import ADULT, MINOR, SQUAT, best, card, codes, done, kg, line


def after(*sets: DoneSet, athlete: AthleteFacts = ADULT) -> AthleteFacts:
    return replace(athlete, history={SQUAT.id: sets})


@pytest.mark.parametrize("athlete", [ADULT, MINOR])
def test_tenfold_load_is_not_the_next_one(athlete: AthleteFacts) -> None:
    slipped = after(done("37.5", days=14), done(375, days=7, entry=2), athlete=athlete)
    (front,) = card(line("5 @ last"), athlete=slipped)

    assert (front.load, codes(front)[-1]) == (kg("37.5"), "doubted")


def test_load_marked_clean_is_believed() -> None:
    (front,) = card(line("5 @ last"), athlete=after(done(40, days=14), done(80, days=7, entry=2, clean=True)))
    assert (front.load, codes(front)) == (kg(80), ["last_time"])


def test_first_load_of_a_minor_waits_for_a_mark_where_it_is_heavy() -> None:
    (front,) = card(line("5 @ last"), athlete=after(done(455, days=7), athlete=MINOR))
    assert (front.load, front.rule, codes(front)) == (None, "find", ["no_history", "doubted"])


def test_known_best_speaks_for_a_heavy_first_load() -> None:
    known = replace(after(done(220, days=7)), bests={SQUAT.id: best(230)})
    (front,) = card(line("5 @ last"), athlete=known)
    assert "doubted" not in codes(front)


@given(st.decimals(2, 300, places=1), st.decimals(1, "1.5", places=2))
def test_ordinary_rise_is_never_doubted(known: Decimal, times: Decimal) -> None:
    assert not is_far_above(known * times, known, is_new=True)


@given(st.decimals("2.5", 300, places=1))
def test_slipped_point_is_always_doubted(known: Decimal) -> None:
    assert is_far_above(known * 10, known, is_new=False)
