"""Forms of the checks: a finding answered, and the club's own rules."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _g
from django.utils.translation import gettext_lazy as _

from coachhub.coaching.review import RULES, Rule, Thresholds
from coachhub.plans.words_review import RULE_NAMES, SCOPE_NAMES, source_text, unit_text

LONGEST_KEY = 600


class AcceptForm(forms.Form):
    """`key` is made by the checks; one that names no rule is none."""

    key = forms.CharField(max_length=LONGEST_KEY, widget=forms.HiddenInput)
    word = forms.CharField(
        label=_("Why that is all right"),
        max_length=120,
        help_text=_("A few words that all coaches read. Nothing on health."),
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
    )

    def clean_key(self) -> str:
        key: str = self.cleaned_data["key"]
        if key.partition(":")[0] not in RULES:
            raise ValidationError(_("This finding is not there any more."), code="unknown")
        return key


@dataclass(frozen=True, slots=True)
class RuleRow:
    """A rule with its two fields; `threshold` None where it has no figure."""

    rule: Rule
    is_on: forms.BoundField
    threshold: forms.BoundField | None
    source: str


class RulesForm(forms.Form):
    """Every rule: whether it is on, and its threshold where it has one. An empty figure is the usual one."""

    def __init__(self, data: Any = None, *, thresholds: Thresholds) -> None:
        super().__init__(data)
        for code, rule in RULES.items():
            self.fields[f"on-{code}"] = forms.BooleanField(
                label=RULE_NAMES[code], required=False, initial=thresholds.is_on(code)
            )
            if rule.default is not None:
                self.fields[f"value-{code}"] = _figure(rule, thresholds.of(code))

    def sections(self) -> Iterator[tuple[str, Sequence[RuleRow]]]:
        for scope, name in SCOPE_NAMES.items():
            yield str(name), [self._row(rule) for rule in RULES.values() if rule.scope == scope]

    def _row(self, rule: Rule) -> RuleRow:
        threshold = None if rule.default is None else self[f"value-{rule.code}"]
        return RuleRow(rule, self[f"on-{rule.code}"], threshold, source_text(rule))

    @property
    def chosen(self) -> dict[str, tuple[bool, Decimal | None]]:
        """By rule: whether it is on, and its figure."""
        data = self.cleaned_data
        return {code: (data[f"on-{code}"], data.get(f"value-{code}")) for code in RULES}


def _figure(rule: Rule, value: Decimal) -> forms.DecimalField:
    told = {
        "low": f"{rule.lowest:f}",
        "high": f"{rule.highest:f}",
        "unit": unit_text(rule),
        "usual": f"{rule.default:f}",
    }
    return forms.DecimalField(
        label=RULE_NAMES[rule.code],
        required=False,
        min_value=rule.lowest,
        max_value=rule.highest,
        max_digits=6,
        decimal_places=1,
        initial=f"{value:f}".removesuffix(".00"),
        help_text=_g("%(unit)s · usual %(usual)s · from %(low)s to %(high)s") % told,
        widget=forms.TextInput(attrs={"class": "short", "inputmode": "decimal", "aria-label": RULE_NAMES[rule.code]}),
    )
