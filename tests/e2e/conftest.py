"""A real browser. A test fails on any console error and on anything the Content-Security-Policy refused."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import ExitStack

import pytest
from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Page, sync_playwright

# Playwright keeps an event loop, which Django would take for an asynchronous caller.
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "true")

PHONE = {"width": 390, "height": 844}
DESK = {"width": 1280, "height": 900}
QUIET = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update"]

OpenContext = Callable[..., BrowserContext]


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=QUIET)
        yield chromium
        chromium.close()


@pytest.fixture
def complaints() -> Iterator[list[str]]:
    """What browsers complained of; a test that expects one (a refused login, say) takes it out of the list."""
    found: list[str] = []
    yield found
    assert found == []


@pytest.fixture
def open_context(browser: Browser, complaints: list[str]) -> Iterator[OpenContext]:
    """Another person's browser: `open_context(viewport=PHONE)`; options as Playwright's `new_context`."""

    def hear(message: ConsoleMessage) -> None:
        if message.type in ("error", "warning"):
            complaints.append(f"{message.type}: {message.text}")

    with ExitStack() as stack:

        def open_one(**options: object) -> BrowserContext:
            context: BrowserContext = browser.new_context(**options)  # type: ignore[arg-type]
            stack.callback(context.close)
            context.set_default_timeout(10_000)
            context.on("console", hear)
            context.on("weberror", lambda error: complaints.append(f"script: {error.error}"))
            return context

        yield open_one


@pytest.fixture
def desk(open_context: OpenContext) -> Page:
    return open_context(viewport=DESK).new_page()


@pytest.fixture
def phone(open_context: OpenContext) -> Page:
    return open_context(viewport=PHONE, has_touch=True, is_mobile=True).new_page()
