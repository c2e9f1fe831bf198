"""Fields for what an exercise says: texts one a line, and codes in their order."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from django import forms
from django.utils.text import format_lazy
from django.utils.translation import gettext_lazy as _

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

Choices = Sequence[tuple[str, Any]]


class LinesField(forms.CharField):
    """Several short texts, one a line; blank lines are dropped, a text twice is said."""

    def __init__(self, *, each: int, total: int = 0, rows: int = 2, **kwargs: Any) -> None:
        self.each, self.total = each, total
        super().__init__(required=False, widget=forms.Textarea(attrs={"rows": rows}), **kwargs)

    def prepare_value(self, value: Any) -> Any:
        return "\n".join(value) if isinstance(value, tuple | list) else value

    def clean(self, value: Any) -> Any:
        lines = tuple(text for line in str(value or "").splitlines() if (text := " ".join(line.split())))
        for line in lines:
            if len(line) > self.each:
                message = _("“%(line)s” is longer than %(limit)s characters.")
                raise forms.ValidationError(message, code="long", params={"line": line, "limit": self.each})
            if lines.count(line) > 1:
                raise forms.ValidationError(_("“%(line)s” is there twice."), code="twice", params={"line": line})
        if self.total and len("; ".join(lines)) > self.total:
            message = _("%(limit)s characters in all at most.")
            raise forms.ValidationError(message, code="long", params={"limit": self.total})
        return lines


class CodesWidget(forms.MultiWidget):
    """Selects beside each other, each with its own name for who does not see them."""

    def __init__(self, choices: Choices, *, most: int, names: StrOrPromise, more: StrOrPromise) -> None:
        self.most = most
        super().__init__(
            [
                forms.Select(
                    choices=[("", more if n else "–"), *choices],
                    attrs={"aria-label": format_lazy("{}, {}", names, n + 1)},
                )
                for n in range(most)
            ]
        )

    def decompress(self, value: Any) -> list[Any]:
        codes = list(value or ())
        return codes + [""] * (self.most - len(codes))

    def get_context(self, name: str, value: Any, attrs: Any) -> dict[str, Any]:
        """A list may be shorter than the selects: what is left over stays blank."""
        return super().get_context(name, self.decompress(value), attrs)


class CodesField(forms.MultiValueField):
    """Codes in the order of the selects; blanks between them are closed up, a code twice is said.

    `more` is what a blank select after the first one says, such as "or …".
    """

    def __init__(self, *, choices: Choices, most: int, label: StrOrPromise, more: StrOrPromise, **kwargs: Any) -> None:
        fields = [forms.ChoiceField(choices=[("", "–"), *choices], required=False) for _n in range(most)]
        widget = CodesWidget(choices, most=most, names=label, more=more)
        super().__init__(fields, label=label, widget=widget, require_all_fields=False, **kwargs)

    def compress(self, data_list: Any) -> tuple[str, ...]:
        codes = tuple(code for code in data_list or () if code)
        if len(set(codes)) < len(codes):
            raise forms.ValidationError(_("The same one is there twice."), code="twice")
        return codes
