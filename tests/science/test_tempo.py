import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachhub.science.tempo import Tempo, parse_tempo, seconds_per_rep, time_under_tension_s

moving = st.none() | st.integers(0, 9)
tempos = st.builds(Tempo, moving, st.integers(0, 9), moving, st.integers(0, 9)).filter(
    lambda tempo: str(tempo) != "0000"
)


@given(tempo=tempos)
def test_tempo_written_and_read_is_unchanged(tempo: Tempo) -> None:
    assert parse_tempo(str(tempo)) == tempo


def test_tempo_with_small_x_reads_as_fast_as_possible() -> None:
    assert parse_tempo("20x1") == Tempo(2, 0, None, 1)


@given(tempo=tempos, reps=st.integers(0, 30))
def test_time_under_tension_is_reps_times_one_rep(tempo: Tempo, reps: int) -> None:
    assert time_under_tension_s(tempo, reps) == reps * seconds_per_rep(tempo)


@pytest.mark.parametrize("text", ["", "311", "31100", "3 1 1 0", "3X10", "310X", "abcd", "0000", "３110"])  # noqa: RUF001
def test_tempo_of_another_shape_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="tempo must be four figures"):
        parse_tempo(text)


def test_negative_reps_are_refused() -> None:
    with pytest.raises(ValueError, match="reps must be 0 or more"):
        time_under_tension_s(Tempo(3, 1, 1, 0), -1)
