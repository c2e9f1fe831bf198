"""Printing 200 cards to one PDF: our whole command against headless Chromium's, on the same HTML, in turns."""

from __future__ import annotations

import os
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from datetime import UTC, datetime
from pathlib import Path

import django
from pypdf import PdfReader

from tests.bench.rows import Row

ROOT = Path(__file__).resolve().parent.parent.parent
CARDS = 200
TURNS = 3
CHROMIUM = ["--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer"]


def measure() -> list[Row]:
    chromium = shutil.which("chromium")
    assert chromium, "apt-get install -y --no-install-recommends chromium"
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        write_documents(folder)
        ours, theirs = folder / "ours.pdf", folder / "theirs.pdf"
        commands = {
            "ours": [sys.executable, "-m", "tests.bench.print_command", name, str(ours)],
            "theirs": [chromium, *CHROMIUM, f"--print-to-pdf={theirs}", (folder / "whole.html").as_uri()],
        }
        turns = [{who: seconds(command) for who, command in commands.items()} for _ in range(TURNS)]
        assert len(PdfReader(ours).pages) == CARDS <= len(PdfReader(theirs).pages)
    ratio = statistics.median(turn["ours"] / turn["theirs"] for turn in turns)
    own, other = (statistics.median(turn[who] for turn in turns) for who in ("ours", "theirs"))
    against = f"× headless Chromium: {own:.1f} s ({CARDS / own:.0f} cards/s) to {other:.1f} s"
    return [Row(f"printing {CARDS} cards, whole command", ratio, 1.0, against, is_upper=True)]


def seconds(command: list[str]) -> float:
    start = time.monotonic()
    subprocess.run(command, cwd=ROOT, check=True, capture_output=True)
    return time.monotonic() - start


def write_documents(folder: Path) -> None:
    """The documents we print, numbered, and the same cards as one page with its stylesheet for the browser."""
    os.environ["DJANGO_SETTINGS_MODULE"] = "tests.settings"
    django.setup()
    from coachhub.paper.cards import documents
    from coachhub.paper.pages import paper_card
    from coachhub.paper.pdf import STYLESHEET
    from tests.paper.lines import a_sheet

    as_of = datetime(2026, 11, 24, 16, 40, tzinfo=UTC)
    cards = [
        paper_card(a_sheet(n), address=f"https://cards.club.example/g/cards/{n}", as_of=as_of, with_health=True)
        for n in range(CARDS)
    ]
    texts = list(documents(cards))
    for number, text in enumerate(texts):
        (folder / f"{number:03}.html").write_text(text, "utf-8")
    bodies = "".join(re.findall(r"<body>(.*)</body>", "".join(texts), re.DOTALL))
    link = f'<link rel="stylesheet" href="{STYLESHEET.as_uri()}">'
    whole = f'<!doctype html><html lang="en"><meta charset="utf-8"><title>Cards</title>{link}<body>{bodies}'
    (folder / "whole.html").write_text(whole, "utf-8")
