"""Long tables leave piece by piece: what stands in memory does not grow with their length."""

from __future__ import annotations

import tracemalloc
from collections.abc import Iterator, Sequence
from decimal import Decimal

import pytest

from coachhub.base.tables import Cell, csv_stream, xlsx_file
from coachhub.base.tables.table import MEGABYTE

FEW, MANY = 200, 20_000
# A workbook takes twenty times as long; held in memory, so many lines would still be some megabytes.
MANY_IN_A_WORKBOOK = 5000


def lines(count: int) -> Iterator[Sequence[Cell]]:
    for number in range(count):
        yield ("2026-03-02", f"Athlete {number}", "Squat and hinge", "Front squat", number, Decimal("62.5"), "kg")


def peak_of_csv(count: int) -> int:
    tracemalloc.start()
    total = sum(len(piece) for piece in csv_stream(lines(count)))
    _now, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert total > 60 * count
    return peak


def peak_of_xlsx(count: int) -> int:
    tracemalloc.start()
    xlsx_file(lines(count), "sets").close()
    _now, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    return peak


def test_long_csv_takes_no_more_memory_than_a_short_one() -> None:
    peak_of_csv(FEW)
    assert peak_of_csv(MANY) < peak_of_csv(FEW) + MEGABYTE


def test_long_workbook_takes_no_more_memory_than_a_short_one() -> None:
    peak_of_xlsx(FEW)
    assert peak_of_xlsx(MANY_IN_A_WORKBOOK) < peak_of_xlsx(FEW) + MEGABYTE


def test_pieces_are_one_file_with_one_mark() -> None:
    whole = b"".join(csv_stream(lines(1000)))
    assert (whole.count(b"\xef\xbb\xbf"), whole.count(b"\r\n")) == (1, 1000)


@pytest.mark.parametrize("figure", [5, Decimal("62.5"), Decimal(-3)])
def test_figures_are_written_as_they_are(figure: Cell) -> None:
    assert b"".join(csv_stream([[figure]])) == f'\ufeff"{figure}"\r\n'.encode()
