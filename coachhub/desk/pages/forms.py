"""The page of a plain form: a title, why, the fields, one button and a way back."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class FormPage:
    """`is_stop`: the button removes or ends something."""

    title: str
    button: str
    back_url: str
    intro: str = ""
    is_stop: bool = False
