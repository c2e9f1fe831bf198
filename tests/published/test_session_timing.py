"""The worked example of a session as the coach's page counts it, written in its notation.

Source: common practice, calculated (`data/session_duration_checks.csv`). Its main lifts take 4 s a repetition, which
is written as a tempo of 2020; the rest go by the default of 3 s.
"""

import pytest

from coachhub.coaching.notation import parse
from coachhub.coaching.timing import SessionTime, TimedBlock, TimedLine, TimedPart, time_session
from tests.published.figures import rows

PRINTED = {row["part"]: int(row["seconds"]) for row in rows("session_duration_checks.csv")}


def line(dose: str, *, sets: int, is_loaded_up: bool = False) -> TimedLine:
    return TimedLine(parse(dose), sets, is_loaded_up=is_loaded_up)


def example() -> SessionTime:
    a = TimedBlock("A", 4, (line("6 t2020", sets=4, is_loaded_up=True), line("8", sets=4)), rest_s=120)
    b = TimedBlock("B", 3, (line("8/side t2020", sets=3, is_loaded_up=True), line("10", sets=3)), rest_s=90)
    c = TimedBlock("C", 3, (line("10/side", sets=3), line("30 s hold", sets=3)), rest_s=60)
    parts = [
        TimedPart("warm_up", (), 10),
        TimedPart("activation", (), 5),
        TimedPart("athleticism", (), 8),
        TimedPart("strength", (a, b, c)),
        TimedPart("cool_down", (), 5),
    ]
    return time_session(parts, 60)


@pytest.mark.parametrize("number", range(3))
def test_block_agrees(number: int) -> None:
    block = example().parts[3].blocks[number]

    assert block.seconds == PRINTED[f"block {block.label}"]


def test_session_agrees() -> None:
    session = example()

    assert (session.seconds, session.minutes) == (PRINTED["TOTAL s"], PRINTED["TOTAL min"])
