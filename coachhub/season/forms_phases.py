"""The form of a phase: which, from when to when, and hard sets a week for each pattern."""

from __future__ import annotations

from typing import Any, Final, cast

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _

from coachhub.base.fields import WholeNumberField
from coachhub.base.models import Pattern
from coachhub.coaching.coverage import PRIMARY
from coachhub.coaching.review.phases import Target
from coachhub.people.forms import day_input
from coachhub.season.models import SeasonPhase

MOST_SETS: Final = 60


class PhaseForm(forms.ModelForm):  # type: ignore[type-arg]  # generic for the type checker only
    class Meta:
        model = SeasonPhase
        fields = ["code", "from_on", "to_on"]
        widgets = {"from_on": day_input(), "to_on": day_input()}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        cast(Any, self.fields["code"]).choices = [("", _("choose")), *self.fields["code"].choices[1:]]  # type: ignore[attr-defined]
        known = {row.pattern: row for row in self.instance.targets.all()} if self.instance.pk else {}
        for pattern in PRIMARY:
            for end, label in (("low", _("%(pattern)s, from")), ("high", _("%(pattern)s, to"))):
                self.fields[f"{end}_{pattern}"] = WholeNumberField(
                    label=(label % {"pattern": Pattern(pattern).label}).capitalize(),
                    required=False,
                    least=0,
                    most=MOST_SETS,
                    initial=getattr(known.get(pattern), end, None),
                    widget=forms.NumberInput(attrs={"inputmode": "numeric"}),
                )

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        if data.get("from_on") and data.get("to_on") and data["to_on"] < data["from_on"]:
            self.add_error("to_on", ValidationError(_("The last day cannot be before the first.")))
        for pattern in PRIMARY:
            low, high = data.get(f"low_{pattern}"), data.get(f"high_{pattern}")
            if (low is None) != (high is None):
                self.add_error(f"high_{pattern}", ValidationError(_("Both ends, or neither.")))
            elif low is not None and high is not None and high < low:
                self.add_error(f"high_{pattern}", ValidationError(_("Less than where it begins.")))
        return data

    def _post_clean(self) -> None:
        """The row is checked when it is written."""

    def targets(self) -> dict[str, Target]:
        told = {
            pattern: (self.cleaned_data[f"low_{pattern}"], self.cleaned_data[f"high_{pattern}"]) for pattern in PRIMARY
        }
        return {pattern: Target(low, high) for pattern, (low, high) in told.items() if low is not None}
