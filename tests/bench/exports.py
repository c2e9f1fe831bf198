"""A long season's sets as a workbook, against the same lines as CSV and against openpyxl's own way of long tables.

Seconds are those of the processor; the database is left out, so that only the writing is weighed.
"""

from __future__ import annotations

import io
import os
import time
from collections import namedtuple
from collections.abc import Callable, Iterator, Sequence
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import django
from openpyxl import Workbook

from coachhub.base.tables import Cell, csv_stream, xlsx_file
from tests.bench.rows import Row

SETS = 100_000


def measure() -> list[Row]:
    os.environ["DJANGO_SETTINGS_MODULE"] = "tests.settings"
    django.setup()
    ours = seconds(lambda: xlsx_file(lines(), "sets").close())
    as_csv, plain = seconds(lambda: write_csv(lines())), seconds(lambda: write_plain(lines()))
    told = f"{ours:.1f} s to"
    return [
        Row(f"workbook of {SETS:,} sets", ours / plain, 1.0, f"× openpyxl, write-only: {told} {plain:.1f} s", True),
        Row(f"workbook of {SETS:,} sets", ours / as_csv, 8.0, f"× the same as CSV: {told} {as_csv:.1f} s", True),
    ]


def seconds(work: Callable[[], None]) -> float:
    start = time.process_time()
    work()
    return time.process_time() - start


def lines() -> Iterator[Sequence[Cell]]:
    from coachhub.insight.logbook import log_lines

    return log_lines(rows())


def rows() -> Iterator[Any]:
    """Named tuples as the query gives them, one a set: a squad's lift on each of its days."""
    from coachhub.insight.queries.done import LOG_COLUMNS

    done = namedtuple("done", LOG_COLUMNS)  # type: ignore[misc]  # noqa: PYI024  # the columns are the query's
    empty = dict.fromkeys(LOG_COLUMNS)
    told = {
        "athlete__given_name": "Ines",
        "card__assignment__session__name": "Squat and pull",
        "venue__name": "Mill Lane gym",
        "line__label": "A1",
        "line__name": "Front squat",
        "line__load_meaning": "bar_total",
        "side": "both",
        "kind": "done",
        "reps": 5,
        "load_unit": "kg",
        "rir_half": 4,
        "quality": "",
    }
    for number in range(SETS):
        load = Decimal(60 + number % 20)
        own = {
            "on_date": date(2026, 1, 5) + timedelta(days=number // 400),
            "athlete__family_name": f"Marlow {number % 40}",
            "round": number % 5 + 1,
            "load_value": load,
            "load_kg": load,
        }
        yield done(**empty | told | own)


def write_csv(table: Iterator[Sequence[Cell]]) -> None:
    for _piece in csv_stream(table):
        pass


def write_plain(table: Iterator[Sequence[Cell]]) -> None:
    book = Workbook(write_only=True)
    sheet = book.create_sheet("sets")
    for line in table:
        sheet.append([None if cell == "" else cell for cell in line])
    book.save(io.BytesIO())
