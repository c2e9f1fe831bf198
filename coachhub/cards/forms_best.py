"""The form of a known best. It checks; the verb in `actions` writes."""

from __future__ import annotations

from datetime import date
from typing import Any, cast

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from coachhub.base.clock import today
from coachhub.base.fields import WholeNumberField
from coachhub.cards.forms import day_input
from coachhub.cards.forms_health import MassField, check_mass, used_exercises
from coachhub.cards.models import KnownBest
from coachhub.cards.words import mass_text
from coachhub.coaching.facts import Mass
from coachhub.coaching.slips import is_far_above
from coachhub.library.models import Exercise, LoadMeaning
from coachhub.people.models import Athlete


class KnownBestForm(forms.ModelForm):  # type: ignore[type-arg]
    exercise = forms.ModelChoiceField(
        label=_("Exercise"), queryset=Exercise.objects.none(), empty_label=_("choose an exercise")
    )
    load_value = MassField(label=_("Load"))
    reps = WholeNumberField(label=_("Reps"), least=1, most=30, help_text=_("1 to 30. Estimates use 1 to 12."))
    rir_half = forms.TypedChoiceField(
        label=_("Reps left in reserve"),
        coerce=int,
        initial=0,
        choices=[(n, f"{n / 2:g}") for n in range(13)],
        help_text=_("How many more clean ones were left."),
    )
    on_date = forms.DateField(label=_("Date"), widget=day_input(), initial=today)

    class Meta:
        model = KnownBest
        fields = ["exercise", "load_value", "load_unit", "reps", "rir_half", "on_date", "source"]
        help_texts = {
            "source": _("A start load is where you let them begin; it is no proof of strength."),
        }

    def __init__(self, *args: Any, athlete: Athlete, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.athlete = athlete
        loaded = used_exercises().exclude(load_meaning=LoadMeaning.NONE)
        cast(Any, self.fields["exercise"]).queryset = loaded
        self.initial.setdefault("load_unit", athlete.unit)

    def clean_on_date(self) -> date:
        on_date: date = self.cleaned_data["on_date"]
        if on_date > today():
            raise ValidationError(_("This day has not come yet."))
        return on_date

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        check_mass(self, "load_value", "load_unit")
        if not self.errors and KnownBest.objects.filter(athlete=self.athlete, **data).exists():
            raise ValidationError(_("This is noted already."), code="twice")
        if not self.errors and not self.data.get("sure"):
            self._ask_again(data["exercise"], Mass(data["load_value"], data["load_unit"]))
        return data

    def _ask_again(self, exercise: Exercise, load: Mass) -> None:
        """A slipped digit is asked about once: loads are worked out from what is noted here."""
        rows = KnownBest.objects.filter(athlete=self.athlete, exercise=exercise)
        known = [Mass(value, cast(Any, unit)).kg for value, unit in rows.values_list("load_value", "load_unit")]
        is_new = self.athlete.is_minor_on(today())
        if exercise.load_meaning == LoadMeaning.ASSISTANCE or not is_far_above(
            load.kg, max(known, default=None), is_new=is_new
        ):
            return
        self.fields["sure"] = forms.BooleanField(label=_("Yes, that is right"), required=False)
        told = {"load": mass_text(load)}
        self.add_error("load_value", _("%(load)s? If it is right, say so below and send again.") % told)
