"""Tables that people keep in spreadsheets: read with care, written so that no cell becomes a formula."""

from __future__ import annotations

from coachhub.base.tables.reading import read_table
from coachhub.base.tables.table import MOST_BYTES, MOST_ROWS, Row, Table, TableError
from coachhub.base.tables.writing import Cell, Lines, csv_bytes, csv_stream, xlsx_bytes, xlsx_file

__all__ = [
    "MOST_BYTES",
    "MOST_ROWS",
    "Cell",
    "Lines",
    "Row",
    "Table",
    "TableError",
    "csv_bytes",
    "csv_stream",
    "read_table",
    "xlsx_bytes",
    "xlsx_file",
]
