"""A real browser. A test fails on any console error, a failed request, and what the Content-Security-Policy refused."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from contextlib import ExitStack
from typing import Any, Protocol

import pytest
from playwright.sync_api import (
    Browser,
    BrowserContext,
    ConsoleMessage,
    Page,
    Request,
    ViewportSize,
    expect,
    sync_playwright,
)
from pytest_django.live_server_helper import LiveServer

from coachhub.demo.data import small
from coachhub.demo.generate import load_demo_club
from tests.cards.conftest import evening
from tests.e2e.demo_cast import DemoCast, demo_cast

__all__ = ["evening"]

# Playwright keeps an event loop, which Django would take for an asynchronous caller.
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "true")

PHONE: ViewportSize = {"width": 390, "height": 844}
DESK: ViewportSize = {"width": 1280, "height": 900}
# A busy machine is no mistake in a page.
PATIENCE_MS = 20_000
expect.set_options(timeout=PATIENCE_MS)
QUIET = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update"]


class OpenContext(Protocol):
    """Another person's browser: `open_context(viewport=PHONE)`; options as Playwright's `new_context`."""

    def __call__(self, **options: Any) -> BrowserContext: ...


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=QUIET)
        yield chromium
        chromium.close()


@pytest.fixture
def server(live_server: LiveServer) -> str:
    """The address of the program."""
    return live_server.url


@pytest.fixture
def demo_club(transactional_db: None) -> DemoCast:
    load_demo_club(scale=small())
    return demo_cast()


@pytest.fixture
def complaints() -> Iterator[list[str]]:
    """What browsers complained of; a test that expects one (a refused login, say) takes it out of the list."""
    found: list[str] = []
    yield found
    assert found == []


@pytest.fixture
def open_context(browser: Browser, complaints: list[str]) -> Iterator[OpenContext]:
    with ExitStack() as stack:

        def open_one(**options: Any) -> BrowserContext:
            context = browser.new_context(**options)
            stack.callback(context.close)
            context.set_default_timeout(PATIENCE_MS)
            hear(context, complaints)
            return context

        yield open_one


@pytest.fixture
def desk(open_context: OpenContext) -> Page:
    return open_context(viewport=DESK).new_page()


@pytest.fixture
def phone(open_context: OpenContext) -> Page:
    return open_context(viewport=PHONE, has_touch=True, is_mobile=True).new_page()


def hear(context: BrowserContext, complaints: list[str]) -> None:
    def console(message: ConsoleMessage) -> None:
        if message.type in ("error", "warning"):
            complaints.append(f"{message.type}: {message.text}")

    def failed(request: Request) -> None:
        # A page that is left gives up what it was still asking for.
        if request.failure != "net::ERR_ABORTED":
            complaints.append(f"failed: {request.method} {request.url}: {request.failure}")

    context.on("console", console)
    context.on("requestfailed", failed)
    context.on("weberror", lambda error: complaints.append(f"script: {error.error}"))
