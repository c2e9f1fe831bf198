"""Source: common practice, calculated: set-up, rounds of work and change-overs, rests between rounds."""

import pytest

from coachhub.science.duration import block_seconds, whole_minutes, work_seconds
from tests.published.figures import rows

PRINTED = {row["part"]: int(row["seconds"]) for row in rows("session_duration_checks.csv")}
BLOCKS = {
    "block A": block_seconds(
        setup_s=60, rounds=4, works_s=[work_seconds(6, 4), work_seconds(8, 3)], change_over_s=30, rest_s=120
    ),
    "block B": block_seconds(
        setup_s=60, rounds=3, works_s=[work_seconds(8, 4, sides=2), work_seconds(10, 3)], change_over_s=30, rest_s=90
    ),
    "block C": block_seconds(
        setup_s=30, rounds=3, works_s=[work_seconds(10, 3, sides=2), 30], change_over_s=15, rest_s=60
    ),
}


@pytest.mark.parametrize("block", BLOCKS)
def test_block_agrees(block: str) -> None:
    assert BLOCKS[block] == PRINTED[block]


def test_session_agrees_in_whole_minutes() -> None:
    fixed = sum(PRINTED[part] for part in ("warm-up", "activation", "athleticism", "cool-down"))
    seconds = fixed + sum(BLOCKS.values())
    assert (seconds, whole_minutes(seconds)) == (PRINTED["TOTAL s"], PRINTED["TOTAL min"])
