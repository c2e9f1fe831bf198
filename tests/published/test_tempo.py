"""Source: common practice, calculated; X once as one second, once as none."""

import pytest

from coachhub.science.tempo import parse_tempo, time_under_tension_s
from tests.published.figures import rows


@pytest.mark.parametrize("row", rows("tempo_checks.csv"), ids=lambda row: row["tempo_ecc_pause_con_pause"])
def test_time_under_tension_agrees(row: dict[str, str]) -> None:
    tempo = parse_tempo(row["tempo_ecc_pause_con_pause"])
    seconds = time_under_tension_s(tempo, int(row["reps"]), x_counts_as_s=int(row["x_counts_as_s"]))
    assert seconds == int(row["time_under_tension_s"])
