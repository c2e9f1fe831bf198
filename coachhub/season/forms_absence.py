"""The form of an absence: from when to when, and why; at the desk for one athlete or many."""

from __future__ import annotations

from typing import Any, cast

from django import forms
from django.core.exceptions import ValidationError
from django.db.models import QuerySet
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from coachhub.base.clock import today
from coachhub.people.forms import day_input
from coachhub.people.models import Athlete
from coachhub.season.models import AbsenceReason


class AbsenceForm(forms.Form):
    from_on = forms.DateField(label=gettext_lazy("From"), widget=day_input(), initial=today)
    to_on = forms.DateField(
        label=gettext_lazy("To"), widget=day_input(), required=False, help_text=gettext_lazy("Empty: that day only.")
    )
    reason = forms.ChoiceField(label=gettext_lazy("Why"), choices=AbsenceReason.choices, widget=forms.RadioSelect)

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        data["to_on"] = data.get("to_on") or data.get("from_on")
        if data.get("from_on") and data["to_on"] < data["from_on"]:
            self.add_error("to_on", ValidationError(_("The last day cannot be before the first.")))
        return data


class SquadAbsenceForm(AbsenceForm):
    athletes = forms.ModelMultipleChoiceField(
        label=gettext_lazy("Who"), queryset=Athlete.objects.none(), widget=forms.CheckboxSelectMultiple
    )
    field_order = ["athletes", "from_on", "to_on", "reason"]

    def __init__(self, *args: Any, athletes: QuerySet[Athlete], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        cast(Any, self.fields["athletes"]).queryset = athletes
