"""The file itself: its fonts, its tags, and what it may reach."""

from __future__ import annotations

import re
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from coachhub.paper.pdf import PICTURE, STATIC, STYLESHEET, OutsideError, contents, to_pdf
from tests.paper.conftest import Day, printed

FONT = STATIC / "vendor" / "source-sans-3" / "card-sans-regular.ttf"
ACCENTS = '<!doctype html><html lang="en"><title>x</title><p>Łucja Ångström Þóra Őze × – · ½ ≤ ≥ → ← ✓ ☐'


@pytest.mark.parametrize(
    "url",
    [
        "http://127.0.0.1:1/x.css",
        "https://cards.club.example/x.png",
        "ftp://cards.club.example/x",
        "file:///etc/passwd",
        f"file://{STATIC}/../manage.py",
        f"file://{STATIC}/css/..%2F..%2Fmanage.py",
        f"file://{STATIC}/css/%2e%2e/%2e%2e/manage.py",
        f"file://elsewhere{STYLESHEET}",
        f"file://{STATIC}",
        "data:text/css,p{color:red}",
        "relative.css",
        "",
    ],
)
def test_fetcher_refuses_all_but_own_static_files(url: str) -> None:
    with pytest.raises(OutsideError):
        contents(url)


def test_fetcher_refuses_a_link_out_of_the_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    outside = tmp_path / "secret.txt"
    outside.write_text("not for print")
    static = tmp_path / "static"
    static.mkdir()
    (static / "link.css").symlink_to(outside)
    monkeypatch.setattr("coachhub.paper.pdf.STATIC", static)
    with pytest.raises(OutsideError):
        contents((static / "link.css").as_uri())


def test_fetcher_reads_own_files_and_pictures_in_the_document() -> None:
    assert contents(FONT.as_uri()) == FONT.read_bytes()
    assert contents(f"{PICTURE}aGk=") == b"hi"


def test_document_reaches_nothing_outside(tmp_path: Path) -> None:
    """A picture from elsewhere is left out, and with it what the file holds."""
    secret = tmp_path / "secret.svg"
    secret.write_text('<svg xmlns="http://www.w3.org/2000/svg"><text>in the open</text></svg>')
    html = f'<!doctype html><html lang="en"><title>x</title><img alt="drawn" src="{secret.as_uri()}"><p>here'
    (page,) = PdfReader(BytesIO(to_pdf(html))).pages
    assert "in the open" not in page.extract_text()


def fonts(page: Any) -> Iterator[Any]:
    for font in page["/Resources"]["/Font"].values():
        yield font.get_object()["/DescendantFonts"][0].get_object()


def names_of(pdf: bytes) -> set[str]:
    return {str(font["/BaseFont"]) for page in PdfReader(BytesIO(pdf)).pages for font in fonts(page)}


def test_only_our_own_font_is_used_and_embedded_in_part(day: Day) -> None:
    pdf = printed(day.sheets(day.cast.athlete, day.cast.child))
    found = {
        (re.sub(r"^/[A-Z]{6}\+", "/SUBSET+", str(font["/BaseFont"])), "/FontFile2" in font["/FontDescriptor"])
        for page in PdfReader(BytesIO(pdf)).pages
        for font in fonts(page)
    }
    faces = ["", "-Bold", "-Italic", "-Semi-Bold"]
    assert sorted(found) == sorted((f"/SUBSET+Card-Sans{face}", True) for face in faces)


def test_accents_and_signs_come_from_our_own_font() -> None:
    assert {name.split("+")[1] for name in names_of(to_pdf(ACCENTS))} == {"Card-Sans"}


def test_file_is_tagged_in_part_checked(day: Day) -> None:
    """Tagged, has a language and a title; the code has words instead. No claim of a full check."""
    reader = PdfReader(BytesIO(printed(day.sheets(day.cast.athlete))))
    root: Any = reader.root_object
    assert (root["/Lang"], root["/MarkInfo"]["/Marked"], "/StructTreeRoot" in root) == ("en-gb", True, True)
    assert reader.metadata is not None
    assert str(reader.metadata.title).startswith("Ingrid Moss · Squat and pull · ")


def test_nothing_is_set_below_nine_points() -> None:
    css = STYLESHEET.read_text("utf-8")
    sizes = [float(size) for size in re.findall(r"(?:font|font-size):[^;}]*?([\d.]+)pt", css)]
    assert min(sizes) == 9
    assert re.findall(r"font(?:-size)?:[^;}]*?[\d.]+(?:px|em|rem|mm|%)", css) == []
