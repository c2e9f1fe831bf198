"""Tables that people keep in spreadsheets: read with care, written so that no cell becomes a formula."""

from __future__ import annotations

from coachhub.base.tables.reading import read_table
from coachhub.base.tables.table import MOST_BYTES, MOST_ROWS, Row, Table, TableError
from coachhub.base.tables.writing import csv_bytes, xlsx_bytes

__all__ = ["MOST_BYTES", "MOST_ROWS", "Row", "Table", "TableError", "csv_bytes", "read_table", "xlsx_bytes"]
