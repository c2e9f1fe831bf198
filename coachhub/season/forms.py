"""Forms for the calendar. They check; the verbs in `actions` write."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from enum import Enum
from typing import Any, Final, cast

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from coachhub.base.fields import WholeNumberField
from coachhub.coaching.series import Series, has_days
from coachhub.library.models import Venue
from coachhub.people.forms import day_input
from coachhub.people.models import Athlete, Squad
from coachhub.season.actions import Scope
from coachhub.season.models import GymSlot, Happening, HappeningKind, MatchDay, Weekday, weekdays_as_number

LONGEST_DAYS: Final = 366
MOST_MATCH_MINUTES: Final = 240


def time_input() -> forms.TimeInput:
    return forms.TimeInput(format="%H:%M", attrs={"type": "time"})


def squad_field() -> forms.ModelChoiceField[Squad]:
    return forms.ModelChoiceField(
        label=gettext_lazy("Squad"), queryset=Squad.objects.none(), empty_label=gettext_lazy("choose a squad")
    )


class SquadFormMixin:
    """Asks for the squad only where a new row is made."""

    def ask_squad(self, squads: Any) -> None:
        fields = cast(Any, self).fields
        if squads is None:
            del fields["squad"]
        else:
            fields["squad"].queryset = squads


class MatchForm(SquadFormMixin, forms.ModelForm):  # type: ignore[type-arg]  # generic for the type checker only
    squad = squad_field()

    class Meta:
        model = MatchDay
        fields = ["on_date", "starts_at", "opponent", "is_home"]
        widgets = {"on_date": day_input(), "starts_at": time_input()}

    field_order = ["squad", "on_date", "starts_at", "opponent", "is_home"]

    def __init__(self, *args: Any, squads: Any = None, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.ask_squad(squads)


class MinutesForm(forms.Form):
    """One field an athlete: minutes played; empty where nothing is known."""

    def __init__(self, *args: Any, athletes: Iterable[Athlete], played: dict[int, int], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.keys = {f"athlete_{athlete.pk}": athlete.pk for athlete in athletes}
        for name, athlete in zip(self.keys, athletes, strict=True):
            self.fields[name] = WholeNumberField(
                label=athlete.name,
                required=False,
                least=0,
                most=MOST_MATCH_MINUTES,
                initial=played.get(athlete.pk),
                widget=forms.NumberInput(attrs={"inputmode": "numeric", "class": "short"}),
            )

    def minutes(self) -> dict[int, int | None]:
        return {pk: self.cleaned_data[name] for name, pk in self.keys.items()}


class Shape(Enum):
    """What a form asks: for a new date, one that stands alone, one day out of a series, or all from a day on."""

    NEW = frozenset[str]()
    ALONE = frozenset({"weekdays", "every_weeks"})
    ONE = frozenset({"kind", "to_on", "weekdays", "every_weeks"})
    FROM = frozenset({"kind", "from_on"})

    @classmethod
    def of(cls, row: Happening | GymSlot, scope: Scope) -> Shape:
        if not row.is_series:
            return cls.ALONE
        return cls.ONE if scope is Scope.ONE else cls.FROM


class HappeningForm(SquadFormMixin, forms.ModelForm):  # type: ignore[type-arg]
    squad = squad_field()
    weekdays = forms.TypedMultipleChoiceField(
        label=gettext_lazy("Every week on"),
        choices=Weekday.choices,
        coerce=int,
        required=False,
        widget=forms.CheckboxSelectMultiple,
        help_text=gettext_lazy(
            "For a series. Tick none for a single date, or one that lasts from the first to the last day."
        ),
    )
    every_weeks = WholeNumberField(label=gettext_lazy("Every … weeks"), least=1, most=8, initial=1, required=False)
    minutes = WholeNumberField(label=gettext_lazy("Minutes"), least=5, most=1440, required=False)

    class Meta:
        model = Happening
        fields = ["kind", "name", "from_on", "to_on", "weekdays", "every_weeks", "starts_at", "minutes", "place"]
        widgets = {"from_on": day_input(), "to_on": day_input(), "starts_at": time_input()}
        help_texts = {"to_on": gettext_lazy("Empty: that day only, or a series without end.")}

    field_order = ["squad", *Meta.fields]

    def __init__(
        self, *args: Any, kinds: Iterable[HappeningKind], shape: Shape, squads: Any = None, **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.shape = shape
        self.ask_squad(squads)
        cast(Any, self.fields["kind"]).choices = [(kind.value, kind.label) for kind in kinds]
        if self.instance.pk:
            self.initial["weekdays"] = sorted(self.instance.weekday_set)
        for name in shape.value:
            del self.fields[name]

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        first, last = data.get("from_on") or self.instance.from_on, data.get("to_on")
        weekdays = data.get("weekdays", [])
        data["weekdays"] = weekdays_as_number(weekdays)
        data["every_weeks"] = data.get("every_weeks") or 1
        if first is None:
            return data
        if self.shape is Shape.FROM and not weekdays:
            self.add_error("weekdays", ValidationError(_("Tick a weekday; to end the series, remove or call it off.")))
        elif weekdays:
            self._check_series(Series(frozenset(weekdays), first, last, data["every_weeks"]))
        else:
            data["to_on"] = last or first
            self._check_days(first, data["to_on"])
        return data

    def _check_series(self, series: Series) -> None:
        if not has_days(series):
            self.add_error("to_on", ValidationError(_("None of these weekdays lies between the two days.")))

    def _check_days(self, first: date, last: date) -> None:
        if last < first:
            self.add_error("to_on", ValidationError(_("The last day cannot be before the first.")))
        elif (last - first).days >= LONGEST_DAYS:
            self.add_error("to_on", ValidationError(_("That is longer than a year. Please check the dates.")))

    def _post_clean(self) -> None:
        """The row is checked when it is written: here it may be half of what a series will be."""

    def values(self) -> dict[str, Any]:
        """For the verb: only what this form asked."""
        names = [name for name in self.Meta.fields if name in self.fields]
        told = {name: self.cleaned_data[name] for name in names}
        if self.shape in (Shape.NEW, Shape.ALONE):
            told["to_on"] = self.cleaned_data["to_on"]
        return told


_SLOT_LEAVES: Final = {
    Shape.ALONE: ("weekday", "to_on"),
    Shape.ONE: ("weekday", "to_on"),
    Shape.FROM: ("from_on",),
}


class SlotForm(SquadFormMixin, forms.ModelForm):  # type: ignore[type-arg]
    squad = squad_field()
    minutes = WholeNumberField(label=gettext_lazy("Minutes"), least=10, most=300, initial=60)

    class Meta:
        model = GymSlot
        fields = ["venue", "weekday", "from_on", "to_on", "starts_at", "minutes"]
        widgets = {"from_on": day_input(), "to_on": day_input(), "starts_at": time_input()}
        help_texts = {"to_on": gettext_lazy("Empty: until further notice.")}

    field_order = ["squad", *Meta.fields]

    def __init__(self, *args: Any, shape: Shape, squads: Any = None, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.shape = shape
        self.ask_squad(squads)
        venues = cast(Any, self.fields["venue"])
        venues.queryset = Venue.objects.filter(archived_at=None)
        for name in _SLOT_LEAVES.get(shape, ()):
            del self.fields[name]

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        first, last = data.get("from_on") or self.instance.from_on, data.get("to_on")
        if self.shape is Shape.ALONE and first is not None:
            data |= {"to_on": first, "weekday": first.weekday()}
        elif first and last and "weekday" in data and not _falls(data["weekday"], first, last):
            self.add_error("to_on", ValidationError(_("This weekday does not lie between the two days.")))
        return data

    def _post_clean(self) -> None:
        """The row is checked when it is written."""

    def values(self) -> dict[str, Any]:
        told = {name: self.cleaned_data[name] for name in self.Meta.fields if name in self.fields}
        if self.shape is Shape.ALONE:
            told |= {"to_on": self.cleaned_data["to_on"], "weekday": self.cleaned_data["weekday"]}
        return told


def _falls(weekday: int, first: date, last: date) -> bool:
    return has_days(Series(frozenset([weekday]), first, last))


class OffForm(forms.Form):
    """Calls a date off, or takes it out; of a series one day, or all from it on."""

    scope = forms.ChoiceField(
        label=gettext_lazy("Which"), choices=Scope.choices, initial=Scope.ONE, widget=forms.RadioSelect
    )
    how = forms.ChoiceField(
        label=gettext_lazy("How"),
        choices=[
            ("off", gettext_lazy("call off: it stays, struck through")),
            ("remove", gettext_lazy("remove: it was entered by mistake")),
        ],
        initial="off",
        widget=forms.RadioSelect,
    )

    def __init__(self, *args: Any, is_series: bool, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if not is_series:
            del self.fields["scope"]

    @property
    def scope_chosen(self) -> Scope:
        return Scope(self.cleaned_data.get("scope") or Scope.ONE)

    @property
    def is_removal(self) -> bool:
        return bool(self.cleaned_data["how"] == "remove")
