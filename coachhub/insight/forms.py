"""From which day to which."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any, Final

from django import forms
from django.http import QueryDict
from django.utils.translation import gettext_lazy as _

from coachhub.base.clock import today
from coachhub.cards.forms import day_input

WEEKS_SHOWN: Final = 4


class SpanForm(forms.Form):
    """Both days included; the last four weeks where nothing was asked for."""

    first = forms.DateField(label=_("From"), widget=day_input())
    last = forms.DateField(label=_("To"), widget=day_input())

    def __init__(self, data: QueryDict) -> None:
        asked = data if {"first", "last"} & data.keys() else None
        super().__init__(asked or {"first": today() - timedelta(weeks=WEEKS_SHOWN), "last": today()})

    def clean(self) -> dict[str, Any]:
        first, last = self.cleaned_data.get("first"), self.cleaned_data.get("last")
        if first and last and first > last:
            self.add_error("last", _("This day lies before the first one."))
        return self.cleaned_data

    @property
    def span(self) -> tuple[date, date]:
        return self.cleaned_data["first"], self.cleaned_data["last"]
