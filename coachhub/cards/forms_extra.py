"""Giving an extra session to those who hardly played."""

from __future__ import annotations

from typing import Any, cast

from django import forms
from django.core.exceptions import ValidationError
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from coachhub.cards.queries.extra import Extra
from coachhub.coaching.series import Occasion
from coachhub.people.models import Athlete
from coachhub.season.words import time_words


class ExtraForm(forms.Form):
    """`hour`: an occasion of the squad's calendar; everybody is ticked at first."""

    session = forms.TypedChoiceField(label=gettext_lazy("Session"), coerce=int)
    hour = forms.ChoiceField(label=gettext_lazy("When"))
    athletes = forms.ModelMultipleChoiceField(
        label=gettext_lazy("For whom"), queryset=Athlete.objects.none(), widget=forms.CheckboxSelectMultiple
    )

    def __init__(self, data: Any = None, *, extra: Extra) -> None:
        self.sessions = {row.pk: row for row in extra.sessions}
        self.hours = {f"{one.on_date.isoformat()}.{one.pk}": one for one in extra.hours}
        super().__init__(data, initial={"athletes": [row.pk for row in extra.athletes]})
        fields = cast(Any, self.fields)
        fields["session"].choices = [(pk, f"{row.name} · {row.plan.name}") for pk, row in self.sessions.items()]
        fields["hour"].choices = [(key, hour_words(one)) for key, one in self.hours.items()]
        fields["athletes"].queryset = Athlete.objects.filter(pk__in=[row.pk for row in extra.athletes])

    def clean(self) -> dict[str, Any]:
        told = self.cleaned_data
        if "session" in told:
            told["session"] = self.sessions[told["session"]]
        if "hour" in told:
            told["hour"] = self.hours[told["hour"]]
        if not self.sessions:
            raise ValidationError(_("No session is written as extra work for those who hardly played."))
        if not self.hours:
            raise ValidationError(_("The squad has no gym slot on the days after this match."))
        return told


def hour_words(one: Occasion) -> str:
    """ "Sun 6 Dec, 11:00, 60 min, Mill Lane gym"."""
    return ", ".join(text for text in (date_format(one.on_date, "D j M"), time_words(one), one.place) if text)
