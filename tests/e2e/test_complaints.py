"""Whether the other tests here would hear it if a page went wrong."""

from __future__ import annotations

from playwright.sync_api import Page

INLINE = (
    "() => { const style = document.createElement('style'); style.textContent = 'h1{}'; document.head.append(style); }"
)


def heard(complaints: list[str], word: str) -> list[bool]:
    """Whether each complaint has the word; they are taken out, so that the test may end well."""
    told, complaints[:] = [*complaints], []
    return [word in one for one in told]


def test_refusal_by_the_content_security_policy_is_heard(desk: Page, server: str, complaints: list[str]) -> None:
    desk.goto(server)

    with desk.expect_console_message():
        desk.evaluate(INLINE)

    assert heard(complaints, "Content Security Policy") == [True]


def test_lost_request_is_heard(desk: Page, server: str, complaints: list[str]) -> None:
    desk.route("**/base.css", lambda route: route.abort("connectionreset"))

    desk.goto(server)

    assert heard(complaints, "ERR_CONNECTION_RESET") == [True, True]


def test_error_in_a_script_is_heard(desk: Page, server: str, complaints: list[str]) -> None:
    desk.goto(server)

    with desk.context.expect_event("weberror"):
        desk.evaluate("() => { setTimeout(() => { throw new Error('went wrong'); }); }")

    assert heard(complaints, "went wrong") == [True]
