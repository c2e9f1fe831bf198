"""Parts that are set apart become one PDF that reads like one set whole."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from concurrent.futures import Future
from concurrent.futures.process import BrokenProcessPool
from io import BytesIO
from typing import Any

import pytest
from pypdf import PdfReader

from coachhub.paper.join import Part, join, set_part
from coachhub.paper.pdf import to_pdf
from coachhub.paper.press import _own_or_helped, print_documents, set_parts

NAMES = ["Ines Marlow", "7 0 R (Rook) \\ 9 0 R", "Łucja Ångström"]
TABLE = "<table><tr><th scope=row>Front squat<td>60 × 5<td>60 × 5</table>"
HTML = '<!doctype html><html lang="en"><head><title>Cards</title></head><body>{}</body></html>'


def body(name: str) -> str:
    return f"<section class=card><h1>{name}</h1>{TABLE}</section>"


DOCUMENTS = [HTML.format(body(name)) for name in NAMES]


def elements(node: Any) -> Iterator[Any]:
    """The tags, from the root down."""
    yield node
    kids = node.get("/K", [])
    for kid in kids if isinstance(kids, list) else [kids]:
        if not isinstance(kid := kid.get_object(), int):
            yield from elements(kid)


@pytest.fixture(scope="module")
def joined() -> PdfReader:
    return PdfReader(BytesIO(join([set_part(place, html) for place, html in enumerate(DOCUMENTS)])), strict=True)


@pytest.fixture(scope="module")
def whole() -> PdfReader:
    return PdfReader(BytesIO(to_pdf(HTML.format("".join(map(body, NAMES))))), strict=True)


def test_pages_say_the_same(joined: PdfReader, whole: PdfReader) -> None:
    assert [page.extract_text() for page in joined.pages] == [page.extract_text() for page in whole.pages]


def bookmarks(reader: PdfReader) -> list[tuple[str, int | None, float]]:
    outline: list[Any] = reader.outline
    return [(mark.title, reader.get_destination_page_number(mark), mark.top) for mark in outline]


def test_bookmarks_lead_to_the_same_places(joined: PdfReader, whole: PdfReader) -> None:
    assert [mark[0] for mark in bookmarks(joined)] == NAMES
    assert bookmarks(joined) == bookmarks(whole)


def test_tags_are_one_tree_over_all_parts(joined: PdfReader, whole: PdfReader) -> None:
    roots: list[Any] = [reader.root_object["/StructTreeRoot"] for reader in (joined, whole)]
    apart, together = ([str(tag["/S"]) for tag in elements(root) if "/S" in tag] for root in roots)
    assert (apart.count("/Document"), apart.count("/Part")) == (1, 3)
    assert [kind for kind in apart if kind != "/Part"] == together


def test_each_page_finds_its_tags_by_a_key_of_its_own(joined: PdfReader) -> None:
    root: Any = joined.root_object
    tree = root["/StructTreeRoot"]["/ParentTree"]
    nums = [item for kid in tree["/Kids"] for item in kid.get_object()["/Nums"]]
    assert [page["/StructParents"] for page in joined.pages] == nums[::2]
    assert [kid.get_object()["/Limits"] for kid in tree["/Kids"]] == [[key, key] for key in nums[::2]]


def test_heads_of_tables_have_names_of_their_own(joined: PdfReader) -> None:
    root: Any = joined.root_object
    found = list(elements(root["/StructTreeRoot"]))
    names = [e["/ID"] for e in found if "/ID" in e]
    cited = [name for e in found if e.get("/S") == "/TD" for name in e["/A"]["/Headers"]]
    assert len(set(names)) == len(names) == 3
    assert cited == [name for name in names for _ in range(2)]


def test_whole_keeps_title_and_language(joined: PdfReader) -> None:
    assert joined.metadata is not None
    assert (joined.metadata.title, str(joined.root_object["/Lang"])) == ("Cards", "en")


def test_two_processes_make_what_one_makes() -> None:
    assert set_parts(DOCUMENTS) == [set_part(place, html) for place, html in enumerate(DOCUMENTS)]
    assert print_documents(DOCUMENTS) == print_documents(DOCUMENTS)


def test_helper_that_dies_is_replaced() -> None:
    lost: Future[Part] = Future()
    lost.set_running_or_notify_cancel()
    lost.set_exception(BrokenProcessPool())
    assert _own_or_helped(0, DOCUMENTS[0], lost) == set_part(0, DOCUMENTS[0])


def test_helper_needs_no_django() -> None:
    code = "import sys, coachhub.paper.join; sys.exit('django' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
