"""What is cut for somebody late. The order of the offers: common practice."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from coachhub.coaching.late import late_cuts
from coachhub.coaching.notation import Dose
from coachhub.coaching.timing import TimedBlock, TimedLine, TimedPart, time_session

LINE = TimedLine(Dose(low=5), 4)


def block(label: str, rounds: int = 4) -> TimedBlock:
    return TimedBlock(label, rounds, (LINE,), rest_s=120)


WARM_UP = TimedPart("warm_up", (TimedBlock("", 1, (LINE,)),), minutes=10)
PARTS = (WARM_UP, TimedPart("strength", (block("A"), block("B", 1))))


def test_nothing_is_cut_where_all_fits() -> None:
    (only,) = late_cuts(PARTS, 90)

    assert (only.rounds, only.fits) == ((), True)


def test_rounds_go_before_blocks_and_the_last_block_first() -> None:
    cuts = late_cuts(PARTS, 1)

    assert [dict(cut.rounds) for cut in cuts] == [{}, {"A": 3}, {"B": 0}, {"A": 3, "B": 0}]
    assert [cut.fits for cut in cuts] == [False] * 4


@given(st.lists(st.integers(1, 6), min_size=1, max_size=5), st.integers(1, 120))
def test_only_the_last_offer_fits_and_warm_up_always_stays(rounds: list[int], minutes: int) -> None:
    blocks = tuple(block(label, n) for label, n in zip("ABCDE", rounds, strict=False))

    cuts = late_cuts((WARM_UP, TimedPart("strength", blocks)), minutes)

    assert [cut.fits for cut in cuts[:-1]] == [False] * (len(cuts) - 1)
    assert all(cut.minutes >= 10 for cut in cuts)
    assert cuts[0].minutes == time_session((WARM_UP, TimedPart("strength", blocks)), minutes).minutes
