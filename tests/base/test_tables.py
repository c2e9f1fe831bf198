"""Tables from files: what is read, what is refused and how it is said, and that no written cell is a formula."""

from __future__ import annotations

import io
import json
import tracemalloc
from datetime import date, datetime, time
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl import load_workbook

from coachhub.base.tables import Cell, Table, TableError, csv_bytes, read_table, xlsx_bytes
from coachhub.base.tables.table import guarded, tidy, unguarded
from tests.base.hostile import HEADER, HOSTILE, MEGABYTE, PERSON, people, workbook

TRIGGERS = tuple("=+-@\t\r")
texts = st.text(st.characters(exclude_categories=["Cs"]), max_size=12)
formulas = st.builds(str.__add__, st.sampled_from(["=", "+", "-", "@", "\t", "\r", "'", "'=", "''+", " ="]), texts)


def read(content: bytes) -> Table:
    return read_table(io.BytesIO(content))


def cells(content: bytes) -> list[tuple[str, ...]]:
    return [row.cells for row in read(content).rows]


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_file_is_refused_in_words(name: str) -> None:
    make, words = HOSTILE[name]
    with pytest.raises(TableError) as caught:
        read(make())
    assert str(caught.value) == words


@pytest.mark.parametrize("name", ["10,000 rows of XLSX", "a zip bomb", "a billion lols", "two million tags"])
def test_refusal_takes_little_memory(name: str) -> None:
    content = HOSTILE[name][0]()
    tracemalloc.start()
    try:
        with pytest.raises(TableError):
            read(content)
        _now, peak = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert peak < 100 * MEGABYTE


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_delimiters_and_encodings_are_found(delimiter: str, encoding: str) -> None:
    lines = [delimiter.join(line) for line in ([*HEADER, "load"], ["Sól", "Ørn", "30.4.2012", "82,5"])]
    if delimiter == ",":
        lines[1] = 'Sól,Ørn,30.4.2012,"82,5"'
    table = read("\r\n".join(lines).encode(encoding))
    assert (table.headers, table.remarks) == ((*HEADER, "load"), ())
    assert table.rows[0].cells == ("Sól", "Ørn", "30.4.2012", "82,5")


def test_windows_1252_is_read_and_said() -> None:
    table = read("name,born\nBéla,2012-04-30\n".encode("cp1252"))
    assert table.rows[0].cells == ("Béla", "2012-04-30")
    assert table.remarks == (
        "The file is not in UTF-8; it was read as Windows-1252. Look at names with accents before you confirm.",
    )


def test_line_that_names_the_delimiter_is_followed() -> None:
    assert cells(b"sep=;\r\na,b;c\r\nd;e\r\n") == [("d", "e")]


def test_rows_keep_the_numbers_of_the_spreadsheet() -> None:
    table = read(b'\na,b\n\n"c\nd",e\nf,g\n')
    assert [(row.number, row.cells) for row in table.rows] == [(4, ("c\nd", "e")), (5, ("f", "g"))]


def test_cells_beyond_the_header_are_kept_apart() -> None:
    row = read(b"a,b\nc,d,e,,f\n").rows[0]
    assert (row.cells, row.beyond) == (("c", "d"), "e f")


def test_workbook_gives_what_a_person_sees() -> None:
    midnight = datetime.combine(date(2012, 4, 30), time())
    row = ["Sól", 5, 82.5, date(2012, 4, 30), midnight, True, "=1+1", "#N/A", None]
    table = read(workbook([list("abcdefghi"), row]))
    read_row = table.rows[0]
    days = ("2012-04-30", "2012-04-30")
    assert read_row.cells == ("Sól", "5", "82.5", *days, "True", "a formula", "#N/A", "")
    assert read_row.formulas == {6, 7}


def test_only_the_first_sheet_is_read_and_that_is_said() -> None:
    book = load_workbook(io.BytesIO(workbook([HEADER, PERSON])))
    book.create_sheet("Other").append(["x", "y"])
    file = io.BytesIO()
    book.save(file)
    table = read(file.getvalue())
    assert table.rows[0].cells == tuple(PERSON)
    assert table.remarks == ("The file has several sheets; only the first, “Sheet”, is read.",)


@pytest.mark.parametrize("content", [csv_bytes(people(5000)), xlsx_bytes(people(5000), "x")], ids=["csv", "xlsx"])
def test_five_thousand_rows_are_read(content: bytes) -> None:
    assert len(read(content).rows) == 5000


def test_file_is_what_it_holds_not_what_it_is_called() -> None:
    file = io.BytesIO(xlsx_bytes([HEADER, PERSON], "x"))
    file.name = "people.csv"
    assert read_table(file).rows[0].cells == tuple(PERSON)


@given(st.one_of(texts, formulas))
def test_guard_is_undone(text: str) -> None:
    assert unguarded(guarded(text)) == text


@given(st.lists(st.tuples(st.one_of(texts, formulas), formulas), min_size=1, max_size=5))
@settings(deadline=None, max_examples=50)
def test_what_is_written_reads_the_same_and_begins_no_formula(rows: list[tuple[str, str]]) -> None:
    lines = [("a", "b", "c"), *((*row, "x") for row in rows)]
    expected = [tuple(tidy(cell) for cell in line) for line in lines[1:]]
    sheet = xlsx_bytes(lines, "x")
    assert cells(csv_bytes(lines)) == cells(sheet) == expected
    raw = [cell for row in load_workbook(io.BytesIO(sheet)).active.iter_rows() for cell in row]
    assert [c.value for c in raw if c.data_type == "f" or str(c.value or "").startswith(TRIGGERS)] == []


def test_workbook_holds_texts_as_texts_and_figures_as_figures() -> None:
    texts = [
        "12",
        "2026-03-02",
        "#N/A",
        "{=1+1}",
        "https://club.example",
        "internal:x!A1",
        "true",
        "a & <b>",
        "=1",
        " x",
    ]
    figures: list[Cell] = [5, Decimal("62.5"), Decimal("-0.25"), Decimal(100000)]
    sheet = load_workbook(io.BytesIO(xlsx_bytes([("a", ""), [*texts, *figures, "x" * 40_000]], "x"))).active
    cells_of_row = list(sheet[2])
    assert [cell.value for cell in cells_of_row[:-1]] == [*texts[:-2], "'=1", "x", 5, 62.5, -0.25, 100000]
    assert [cell.data_type for cell in cells_of_row] == ["s"] * 10 + ["n"] * 4 + ["s"]
    assert [cell.hyperlink for cell in cells_of_row if cell.hyperlink] == []
    # A cell of a spreadsheet holds 32,767 letters (the file format's own limit, from memory).
    assert (len(cells_of_row[-1].value), sheet["B1"].value, sheet.freeze_panes) == (32_767, None, "A2")


def test_every_written_csv_cell_is_quoted_and_guarded() -> None:
    line = ["=1+1", "+44 1632", "-5", "@x", "\ty", "plain", 'a"b']
    assert csv_bytes([line]).decode("utf-8-sig") == ('"\'=1+1","\'+44 1632","\'-5","\'@x","y","plain","a""b"\r\n')


def test_table_survives_being_kept_as_data() -> None:
    table = read(workbook([["a", "b"], ["c", "=1"], ["d", "e", "f"]]))
    assert Table.from_data(json.loads(json.dumps(table.as_data()))) == table
