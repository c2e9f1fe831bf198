"""What a parent holds in her hand: a sheet of her own child, and of nobody else's."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from coachhub.people.models import Athlete
from tests.e2e.evening.conftest import Desk
from tests.e2e.evening.doors import go

WIDTHS = {"A4": "595", "Letter": "612"}


def make_pdf(page: Page, size: str, path: Path) -> None:
    page.get_by_label("Sheet for guardians").check()
    page.get_by_label("Paper").select_option(label=f"{size}, one card to a page, larger print")
    with page.expect_download() as download:
        page.get_by_role("button", name="Make the PDF").click()
    download.value.save_as(path)


def letters_of(text: str) -> str:
    """A long name may go over the end of a line, where pdftotext takes its hyphen away."""
    return "".join(text.replace("-", "").split())


def said(*command: str | Path) -> str:
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout


@pytest.mark.parametrize("size", sorted(WIDTHS))
def test_sheet_for_guardians_names_the_child_and_nobody_else(desk_of: Desk, tmp_path: Path, size: str) -> None:
    page = desk_of("juniorcoach")
    go(page, "Today")
    page.get_by_role("row").filter(has_text="Under-15").get_by_role("link").first.click()
    page.get_by_role("link", name="Print", exact=True).click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Print")
    path = tmp_path / "guardians.pdf"
    make_pdf(page, size, path)

    everyone = [one.name for one in Athlete.objects.all()]
    pages = [letters_of(text) for text in said("pdftotext", path, "-").split("\f")[:-1]]
    named = [[name for name in everyone if letters_of(name) in text] for text in pages]
    assert sorted(named) == sorted([one.name] for one in Athlete.objects.filter(memberships__squad__name="Under-15"))
    assert f"Page size: {WIDTHS[size]}" in " ".join(said("pdfinfo", path).split())
