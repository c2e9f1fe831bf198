"""A browser without script: reads the forms of a page, presses a button by its words, follows to the next page."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser
from typing import Any

from django.test import Client


@dataclass
class Button:
    words: str = ""
    name: str = ""
    value: str = ""


@dataclass
class Form:
    """`fields` as a browser would send them untouched."""

    action: str
    fields: dict[str, list[str]] = field(default_factory=dict)
    buttons: list[Button] = field(default_factory=list)


class Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.forms: list[Form] = []
        self.words: list[str] = []
        self.button: Button | None = None
        self.select = ""
        self.is_hidden = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        at = {name: value or "" for name, value in attrs}
        if tag == "form":
            self.forms.append(Form(at.get("action", "")))
        elif tag == "button" and self.forms and "disabled" not in at and at.get("type") != "button":
            self.button = Button(name=at.get("name", ""), value=at.get("value", ""))
            self.forms[-1].buttons.append(self.button)
        elif tag == "select":
            self.select = at["name"]
        elif tag == "option" and self.select:
            chosen = self.forms[-1].fields.setdefault(self.select, [at.get("value", "")])
            if "selected" in at:
                chosen[0] = at.get("value", "")
        elif tag == "input" and at.get("name"):
            is_off = at.get("type") in ("radio", "checkbox") and "checked" not in at
            if not is_off:
                self.forms[-1].fields.setdefault(at["name"], []).append(at.get("value", ""))

    def handle_endtag(self, tag: str) -> None:
        if tag == "button":
            self.button = None
        elif tag == "select":
            self.select = ""

    def handle_data(self, data: str) -> None:
        self.words.append(data)
        if self.button is not None:
            self.button.words = f"{self.button.words}{data}".strip()


@dataclass
class Page:
    status: int
    path: str
    html: str
    forms: list[Form]
    words: str

    @property
    def buttons(self) -> list[str]:
        return [button.words for form in self.forms for button in form.buttons]

    def form_with(self, words: str) -> tuple[Form, Button]:
        return next((form, button) for form in self.forms for button in form.buttons if button.words == words)


class Browser:
    def __init__(self, client: Client) -> None:
        self.client = client

    def open(self, path: str) -> Page:
        return self._page(self.client.get(path), path)

    def press(self, page: Page, words: str, **typed: str) -> Page:
        """Send the form of that button with what was typed; follow where it leads."""
        data = self.data_of(page, words, **typed)
        form, _button = page.form_with(words)
        return self.send(form.action, data)

    def send(self, action: str, data: dict[str, list[str]]) -> Page:
        response = self.client.post(action, data)
        if response.status_code == 302:
            return self.open(response.headers["Location"])
        return self._page(response, action)

    @staticmethod
    def data_of(page: Page, words: str, **typed: str) -> dict[str, list[str]]:
        form, button = page.form_with(words)
        chosen = {button.name: [button.value]} if button.name else {}
        return form.fields | chosen | {name: [value] for name, value in typed.items()}

    @staticmethod
    def _page(response: Any, path: str) -> Page:
        reader = Reader()
        html = response.content.decode()
        reader.feed(html)
        return Page(response.status_code, path, html, reader.forms, " ".join(" ".join(reader.words).split()))
