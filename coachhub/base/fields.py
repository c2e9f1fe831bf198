"""Form fields that more than one app needs."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.text import format_lazy
from django.utils.translation import gettext_lazy as _


class WholeNumberField(forms.IntegerField):
    """A whole number within limits; whatever is wrong, what is said beside the field names the limits."""

    def __init__(self, *, least: int, most: int, **kwargs: Any) -> None:
        said = format_lazy(_("Write a whole number from {least} to {most}."), least=least, most=most)
        messages = dict.fromkeys(("required", "invalid", "min_value", "max_value"), said)
        super().__init__(min_value=least, max_value=most, error_messages=messages, **kwargs)
