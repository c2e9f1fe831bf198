"""Form fields that read what coaches write: rounds, rests, an ordered choice."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import Any, TypeVar

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from coachhub.coaching.rest import RestOrderError, format_rest, format_rest_range, parse_rest, parse_rest_range
from coachhub.coaching.rounds import Rounds

MOST_ROUNDS = 20
Value = TypeVar("Value")


class _TextField(forms.Field):
    """Read from a short text into a value of its own, so that no rule about texts touches it."""

    def text(self, value: Any) -> str:
        return "" if value is None else str(value).strip()[:40]


class RoundsField(_TextField):
    """`3` or `3-4` -> Rounds; empty -> None."""

    def prepare_value(self, value: Any) -> Any:
        return str(value) if isinstance(value, Rounds) else value

    def to_python(self, value: Any) -> Any:
        text = self.text(value)
        if not text:
            return None
        found = re.fullmatch(r"(\d{1,3})(?:\s*[-–—]\s*(\d{1,3}))?", text)
        if found is None:
            raise ValidationError(_("Rounds are a number or a range, such as 3 or 3-4."), code="invalid")
        rounds = Rounds(int(found[1]), int(found[2] or found[1]))
        if not 1 <= rounds.low <= rounds.high <= MOST_ROUNDS:
            raise ValidationError(
                _("Rounds go from 1 to %(most)s, the smaller number first."),
                code="limits",
                params={"most": MOST_ROUNDS},
            )
        return rounds


class _RestBase(_TextField):
    def __init__(self, *, most_s: int, **kwargs: Any) -> None:
        self.most_s = most_s
        super().__init__(**{"required": False, **kwargs})

    def read(self, parse: Callable[[str], Value], text: str) -> Value:
        try:
            return parse(text)
        except RestOrderError:
            raise ValidationError(_("The shorter rest comes first."), code="order") from None
        except ValueError:
            raise ValidationError(
                _("A rest is minutes and seconds such as 1:30, or seconds such as 45."), code="invalid"
            ) from None

    def check_most(self, seconds: int) -> None:
        if seconds > self.most_s:
            raise ValidationError(
                _("A rest here is at most %(most)s."), code="limits", params={"most": format_rest(self.most_s)}
            )


class RestField(_RestBase):
    """`1:30`, `90`, `45 s`, `2 min` -> seconds; empty -> None."""

    def prepare_value(self, value: Any) -> Any:
        return format_rest(value) if isinstance(value, int) else value

    def to_python(self, value: Any) -> Any:
        text = self.text(value)
        if not text:
            return None
        seconds = self.read(parse_rest, text)
        self.check_most(seconds)
        return seconds


class RestRangeField(_RestBase):
    """`2:00-2:30` -> (120, 150); a single figure -> (120, None); empty -> (None, None)."""

    def prepare_value(self, value: Any) -> Any:
        if isinstance(value, tuple):
            return "" if value[0] is None else format_rest_range(*value)
        return value

    def to_python(self, value: Any) -> Any:
        text = self.text(value)
        if not text:
            return None, None
        low, high = self.read(parse_rest_range, text)
        self.check_most(high or low)
        return low, high


class OrderedWidget(forms.MultiWidget):
    """One select for each place."""

    def __init__(self, choices: Sequence[tuple[str, Any]] = (), places: int = 0) -> None:
        numbers = range(1, places + 1)
        super().__init__({str(n): forms.Select(attrs={"aria-label": n}, choices=choices) for n in numbers})

    def decompress(self, value: Any) -> list[Any]:
        return list(value or [])


class OrderedField(forms.MultiValueField):
    """Some of the choices, each once, in the coach's own order -> list of codes."""

    def __init__(self, *, choices: Sequence[tuple[str, Any]], **kwargs: Any) -> None:
        with_blank = [("", "–"), *choices]
        places = [forms.ChoiceField(choices=with_blank, required=False) for _place in choices]
        widget = OrderedWidget(with_blank, len(places))
        super().__init__(places, widget=widget, required=False, require_all_fields=False, **kwargs)

    def compress(self, data_list: Sequence[str]) -> list[str]:
        chosen = [code for code in data_list if code]
        if len(set(chosen)) < len(chosen):
            raise ValidationError(_("Each direction stands once in the order."), code="twice")
        return chosen
