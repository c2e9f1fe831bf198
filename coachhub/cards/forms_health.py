"""Forms on an athlete's health and strength. They check; the verbs in `actions` write."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from typing import Any, Final, cast

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.base.models import MassUnit, Pattern, Region
from coachhub.base.text import fold
from coachhub.cards.forms import day_input
from coachhub.cards.models import CopyAnswerKind, most_load
from coachhub.coaching.facts import Mass
from coachhub.library.models import Exercise
from coachhub.people.access import sees_diagnosis
from coachhub.people.models import Athlete, RedFlag, Restriction, RestrictionKind

# More digits than a key of the database has.
LONGEST_KEY: Final = 19
# Who cleared an athlete is found again by name and profession.
FEWEST_WORDS: Final = 2
# A restriction that nobody asks about for longer is forgotten.
LONGEST_WAIT: Final = timedelta(days=366)
# Which field says what is restricted, per kind.
SAYS_WHAT: Final = {
    RestrictionKind.REGION: "region",
    RestrictionKind.PATTERN: "pattern",
    RestrictionKind.EXERCISE: "exercise",
    RestrictionKind.LOAD_CAP: "cap_value",
}


class MassField(forms.DecimalField):
    """A mass above nothing, with a comma or a point."""

    def __init__(self, **kwargs: Any) -> None:
        widget = forms.TextInput(attrs={"inputmode": "decimal", "class": "short", "autocomplete": "off"})
        super().__init__(max_digits=7, decimal_places=2, min_value=Decimal("0.25"), widget=widget, **kwargs)

    def to_python(self, value: Any) -> Any:
        return super().to_python(value.replace(",", ".") if isinstance(value, str) else value)


def check_mass(form: forms.Form | forms.ModelForm[Any], value_field: str, unit_field: str) -> None:
    """Both or neither, and not more than anybody lifts."""
    value, unit = form.cleaned_data.get(value_field), form.cleaned_data.get(unit_field)
    if value is not None and not unit:
        form.add_error(unit_field, _("Kilograms or pounds?"))
    most = most_load(unit or MassUnit.KG)
    if value is not None and value > most:
        told = {"most": most, "unit": unit or MassUnit.KG}
        form.add_error(value_field, ValidationError(_("More than %(most)s %(unit)s: please check."), params=told))


def used_exercises() -> Any:
    return Exercise.objects.live()


class RestrictionForm(forms.ModelForm):  # type: ignore[type-arg]  # generic for the type checker only
    """Which columns matter depends on the kind; those that do not are emptied."""

    exercise = forms.ModelChoiceField(
        label=_("Exercise"), queryset=Exercise.objects.none(), required=False, empty_label=_("choose an exercise")
    )
    cap_value = MassField(label=_("At most"), required=False)
    cap_unit = forms.ChoiceField(label=_("Unit"), choices=MassUnit.choices, required=False)
    starts_on = forms.DateField(label=_("From"), widget=day_input(), initial=today)

    class Meta:
        model = Restriction
        fields = [
            "kind",
            "region",
            "side",
            "pattern",
            "exercise",
            "cap_value",
            "cap_unit",
            "can_do",
            "on_word_of",
            "starts_on",
            "review_on",
            "diagnosis",
        ]
        widgets = {"review_on": day_input()}
        help_texts = {
            "can_do": _("The athlete and everyone on the floor read this."),
            "on_word_of": _("Doctor, physiotherapist, coach, parent: their name."),
            "review_on": _("On this day the question is asked again. Nothing is lifted by itself."),
            "diagnosis": _("Only the owner, the athlete's coaches and the clinician read this."),
        }

    def __init__(self, *args: Any, actor: Actor, athlete: Athlete, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.athlete = athlete
        cast(Any, self.fields["exercise"]).queryset = used_exercises()
        for name, choices in (("kind", RestrictionKind), ("region", Region), ("pattern", Pattern)):
            cast(Any, self.fields[name]).choices = [("", _("choose")), *cast(Any, choices).choices]
        self.initial.setdefault("cap_unit", athlete.unit)
        if not sees_diagnosis(actor):
            del self.fields["diagnosis"]

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        self._check_what(data)
        review_on, starts_on = data.get("review_on"), data.get("starts_on")
        if review_on and starts_on and review_on < starts_on:
            self.add_error("review_on", _("This is before the restriction begins."))
        if not self.errors and self._is_in_force(data):
            raise ValidationError(_("This restriction is in force already."), code="twice")
        return data

    def _check_what(self, data: dict[str, Any]) -> None:
        wanted = SAYS_WHAT.get(cast(RestrictionKind, data.get("kind")))
        for name in SAYS_WHAT.values():
            if name == wanted and not data.get(name) and name not in self.errors:
                self.add_error(name, _("What exactly is restricted?"))
            elif name != wanted:
                self.errors.pop(name, None)
                data[name] = "" if name in ("region", "pattern") else None
        if wanted == "cap_value":
            check_mass(self, "cap_value", "cap_unit")
        else:
            data["cap_unit"] = ""
        if wanted != "region":
            data["side"] = "both"

    def _is_in_force(self, data: dict[str, Any]) -> bool:
        same = {name: data[name] for name in ("kind", "region", "side", "pattern", "exercise", "cap_value")}
        return (
            Restriction.objects.standing().filter(athlete=self.athlete, on_word_of=data["on_word_of"], **same).exists()
        )


class ExceptionForm(forms.Form):
    """One exercise that is allowed all the same, on somebody's word."""

    exercise = forms.ModelChoiceField(
        label=_("Allowed all the same"), queryset=Exercise.objects.none(), empty_label=_("choose an exercise")
    )
    cap_value = MassField(label=_("At most"), required=False)
    cap_unit = forms.ChoiceField(label=_("Unit"), choices=MassUnit.choices, required=False)
    on_word_of = forms.CharField(label=_("On whose word"), max_length=120)
    until_on = forms.DateField(
        label=_("Last day"),
        required=False,
        widget=day_input(),
        help_text=_("After it the restriction holds this exercise again, and the question is asked."),
    )

    def __init__(self, data: Any = None, *, athlete: Athlete) -> None:
        super().__init__(data, initial={"cap_unit": athlete.unit})
        cast(Any, self.fields["exercise"]).queryset = used_exercises()

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        check_mass(self, "cap_value", "cap_unit")
        return data

    def clean_until_on(self) -> date | None:
        until_on: date | None = self.cleaned_data["until_on"]
        if until_on and until_on < today():
            raise ValidationError(_("This day has passed."))
        return until_on

    @property
    def columns(self) -> dict[str, Any]:
        return {name: self.cleaned_data[name] for name in ("exercise", "on_word_of", "until_on")}

    @property
    def cap(self) -> Mass | None:
        value, unit = self.cleaned_data["cap_value"], self.cleaned_data["cap_unit"]
        return None if value is None else Mass(value, unit)


class LiftForm(forms.Form):
    """On the word it was set on; another's is asked about once."""

    on_word_of = forms.CharField(
        label=_("On whose word"),
        max_length=120,
        help_text=_("By name: the restriction ends on the word of whoever set it, or of a clinician."),
    )
    sure = forms.BooleanField(label=_("Yes, on that other word"), required=False)

    def __init__(self, data: Any = None, *, restriction: Restriction) -> None:
        super().__init__(data, initial={"on_word_of": restriction.on_word_of})
        self.was = restriction.on_word_of
        if data is None:
            del self.fields["sure"]

    def clean(self) -> dict[str, Any]:
        data = self.cleaned_data
        word = data.get("on_word_of", "")
        if not word or fold(word) == fold(self.was):
            del self.fields["sure"]
        elif not data.pop("sure"):
            text = _("It was set on the word of %(was)s and would be lifted on another's. Really? Then say so below.")
            self.add_error("on_word_of", ValidationError(text, params={"was": self.was}))
        data.pop("sure", None)
        return data


class KeepForm(forms.Form):
    review_on = forms.DateField(label=_("Look at it again on"), widget=day_input())

    def clean_review_on(self) -> date:
        review_on: date = self.cleaned_data["review_on"]
        if review_on <= today():
            raise ValidationError(_("Choose a day to come."))
        if review_on > today() + LONGEST_WAIT:
            raise ValidationError(_("Within a year from now, please."))
        return review_on


class ClearPainForm(forms.Form):
    note = forms.CharField(
        label=_("What was found or decided"), max_length=200, required=False, widget=forms.Textarea(attrs={"rows": 3})
    )


class ClearFlagForm(forms.Form):
    """A clearance has a name and a date."""

    cleared_by_name = forms.CharField(
        label=_("Cleared by"),
        max_length=120,
        help_text=_("Name and profession of whoever examined the athlete: “Dr Alder, physician”."),
    )
    cleared_on = forms.DateField(label=_("On"), widget=day_input())

    def __init__(self, data: Any = None, *, flag: RedFlag) -> None:
        super().__init__(data)
        self.flag = flag

    def clean_cleared_by_name(self) -> str:
        name: str = self.cleaned_data["cleared_by_name"]
        words = [word for word in name.split() if any(letter.isalpha() for letter in word)]
        if len(words) < FEWEST_WORDS:
            raise ValidationError(_("Name and profession, please: at least two words."))
        return name

    def clean_cleared_on(self) -> date:
        cleared_on: date = self.cleaned_data["cleared_on"]
        if cleared_on > today():
            raise ValidationError(_("This day has not come yet."))
        if cleared_on < self.flag.on_date:
            raise ValidationError(_("This is before it happened."))
        return cleared_on


class CopiesForm(forms.Form):
    """Which copies are out of the way, and how."""

    copy = forms.TypedMultipleChoiceField(coerce=int)
    kind = forms.ChoiceField(choices=CopyAnswerKind.choices)

    def __init__(self, data: Any) -> None:
        super().__init__(data)
        asked = [value for value in data.getlist("copy") if value.isdecimal() and len(value) < LONGEST_KEY]
        # Any number will do here: which of them are the actor's is decided by the verb.
        cast(Any, self.fields["copy"]).choices = [(value, value) for value in asked]
