"""Forms for fitting a plan to the season: from which week on, and by which rules."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import date
from typing import Any, Final

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from coachhub.base.clock import today
from coachhub.coaching.fitting import FitRule
from coachhub.people.forms import day_input
from coachhub.plans.models import SessionRole
from coachhub.plans.queries_fit import USUAL

FARTHEST: Final = 6
MOST_DAYS: Final = 5
_DAY: Final = re.compile(r"(?:MD)?\s*([+-]?)\s*(\d?)", re.IGNORECASE)


class FitForm(forms.Form):
    starts_on = forms.DateField(label=gettext_lazy("Week 1 is the week of"), widget=day_input())
    uuid = forms.UUIDField(widget=forms.HiddenInput, required=False)
    seen = forms.CharField(widget=forms.HiddenInput, required=False, max_length=64)

    def clean_starts_on(self) -> date:
        starts_on: date = self.cleaned_data["starts_on"]
        if abs((starts_on - today()).days) > 366:
            raise ValidationError(_("A week within a year of today, please."))
        return starts_on


class MatchDaysField(forms.CharField):
    """ "-4, -3" or "MD-4, MD+1": days counted from the match, the best first; a tuple of whole numbers."""

    def to_python(self, value: Any) -> Any:
        text = str(value or "").replace("−", "-").strip()
        days = tuple(_day(part) for part in text.split(",")) if text else ()
        if len(days) > MOST_DAYS or len(set(days)) < len(days):
            raise ValidationError(_("Up to %(most)d days, each once."), params={"most": MOST_DAYS})
        return days

    def prepare_value(self, value: Any) -> Any:
        return ", ".join(f"{day:+d}" if day else "0" for day in value) if isinstance(value, tuple) else value

    def run_validators(self, value: Any) -> None:
        """A tuple has no length in letters to check."""


def _day(text: str) -> int:
    found = _DAY.fullmatch(text.strip())
    if found is None or not text.strip() or (found[1] and not found[2]):
        raise ValidationError(_("Write days such as -4, -3 or +1, with commas between them."))
    day = int(f"{found[1]}{found[2] or 0}")
    if abs(day) > FARTHEST:
        raise ValidationError(_("From -%(far)d to +%(far)d days around the match."), params={"far": FARTHEST})
    return day


class FitRulesForm(forms.Form):
    """`days_main`, `only_main` and so on, as they stand now."""

    def __init__(self, data: Any = None, *, rules: Sequence[FitRule]) -> None:
        super().__init__(data)
        for rule in rules:
            label = str(SessionRole(rule.role).label)
            self.fields[f"days_{rule.role}"] = MatchDaysField(
                label=label.capitalize(),
                required=False,
                max_length=40,
                initial=rule.days,
                help_text=_("Usually %(days)s.") % {"days": MatchDaysField().prepare_value(USUAL[rule.role].days)},
            )
            self.fields[f"only_{rule.role}"] = forms.BooleanField(
                label=_("%(role)s: only then, else not at all") % {"role": label.capitalize()},
                required=False,
                initial=rule.only,
            )

    def clean(self) -> dict[str, Any]:
        for role in USUAL:
            if self.cleaned_data.get(f"only_{role}") and self.cleaned_data.get(f"days_{role}") == ():
                self.add_error(f"days_{role}", _("Name the days, or take “only then” away."))
        return self.cleaned_data

    @property
    def rules(self) -> list[FitRule]:
        told = self.cleaned_data
        return [FitRule(role, told[f"days_{role}"], only=told[f"only_{role}"]) for role in USUAL]
