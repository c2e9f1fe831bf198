"""What a phone fetches when it opens a card for the first time, in a real browser."""

from __future__ import annotations

import gzip
import shutil
from dataclasses import dataclass

from playwright.sync_api import Response, sync_playwright

from tests.bench.load import Call
from tests.bench.rows import Row

ALREADY_COMPRESSED = ("woff2", "png", "jpeg", "webp")


@dataclass(frozen=True)
class Fetched:
    url: str
    kind: str
    size: int

    @classmethod
    def of(cls, answer: Response) -> Fetched:
        """With the size that a compressing server sends, whether this one compresses or not."""
        body = answer.body()
        is_small = any(word in answer.headers.get("content-type", "") for word in ALREADY_COMPRESSED)
        return cls(answer.url, answer.request.resource_type, len(body if is_small else gzip.compress(body)))


def first_load(origin: str, card: Call) -> list[Row]:
    files = fetched(origin, card)
    scripts = [file.size for file in files if file.kind == "script"]
    biggest = max(files, key=lambda file: file.size)
    named = f"biggest: {biggest.url.rpartition('/')[2]}, {biggest.size / 1000:.1f} kB"
    return [
        Row("first load of a card, gzip kB", sum(file.size for file in files) / 1000, 60, named, is_upper=True),
        Row("  of it scripts, kB", sum(scripts) / 1000, 25, f"{len(scripts)} files", is_upper=True),
        Row("  requests", len(files), 8, is_upper=True),
    ]


def fetched(origin: str, card: Call) -> list[Fetched]:
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        context = browser.new_context(viewport={"width": 390, "height": 844}, extra_http_headers=card.headers)
        page = context.new_page()
        answers: list[Response] = []
        page.on("response", lambda answer: answers.append(answer))  # noqa: PLW0108 - a bound method takes no attribute
        page.goto(origin + card.path, wait_until="networkidle")
        files = [Fetched.of(answer) for answer in answers]
        browser.close()
    return files
