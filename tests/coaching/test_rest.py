"""Rest, as typed and as shown."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachhub.coaching.rest import RestOrderError, format_rest, format_rest_range, parse_rest, parse_rest_range


@pytest.mark.parametrize(
    ("text", "seconds"),
    [("90", 90), ("1:30", 90), ("45 s", 45), ("45s", 45), (" 2 min ", 120), ("0", 0), ("0:45", 45), ("10:00", 600)],
)
def test_rest_reads_what_coaches_write(text: str, seconds: int) -> None:
    assert parse_rest(text) == seconds


@pytest.mark.parametrize("text", ["", "1:75", "-30", "1:3", "a while", "1.5 min", "1:30 min", "90 90"])
def test_rest_refuses_what_it_cannot_read(text: str) -> None:
    with pytest.raises(ValueError, match="not a rest"):
        parse_rest(text)


@pytest.mark.parametrize(
    ("text", "ends"),
    [
        ("2:00-2:30", (120, 150)),
        ("2:00–2:30", (120, 150)),
        ("60 - 90", (60, 90)),
        ("2-3 min", (120, 180)),
        ("90", (90, None)),
        ("90-90", (90, None)),
    ],
)
def test_rest_range_reads_both_ends(text: str, ends: tuple[int, int | None]) -> None:
    assert parse_rest_range(text) == ends


def test_rest_range_wants_the_shorter_rest_first() -> None:
    with pytest.raises(RestOrderError):
        parse_rest_range("2:30-2:00")


def test_rest_range_has_two_ends_at_most() -> None:
    with pytest.raises(ValueError, match="not a rest"):
        parse_rest_range("1-2-3")


@given(st.integers(0, 5999))
def test_rest_shown_is_read_back(seconds: int) -> None:
    assert parse_rest(format_rest(seconds)) == seconds


@given(st.integers(0, 1800), st.integers(1, 1800))
def test_rest_range_shown_is_read_back(low: int, more: int) -> None:
    assert parse_rest_range(format_rest_range(low, low + more)) == (low, low + more)


@pytest.mark.parametrize(
    ("low", "high", "text"), [(45, None, "45 s"), (120, 150, "2:00–2:30"), (30, 45, "30–45 s"), (60, 60, "1:00")]
)
def test_rest_as_text(low: int, high: int | None, text: str) -> None:
    assert format_rest_range(low, high) == text
