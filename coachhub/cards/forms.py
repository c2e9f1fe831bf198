"""Forms of the desk's card pages: giving a session, and what a coach does on the floor. Health: `forms_health`."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any, cast

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.base.fields import WholeNumberField
from coachhub.cards.models import AttendanceStatus, SetQuality
from coachhub.library.models import Venue
from coachhub.people.models import Athlete, Squad
from coachhub.plans.models import Session


def day_input() -> forms.DateInput:
    return forms.DateInput(format="%Y-%m-%d", attrs={"type": "date"})


class SessionChoice(forms.ModelChoiceField):  # type: ignore[type-arg]  # generic for the type checker only
    def label_from_instance(self, obj: Any) -> str:
        return f"{obj.plan.name}: {obj.name}"


class AssignForm(forms.Form):
    """Which session goes to whom, when and where. Without athletes it asks for a preview, with them it gives cards."""

    session = SessionChoice(label=_("Session"), queryset=Session.objects.none(), empty_label=_("choose a session"))
    squad = forms.ModelChoiceField(
        label=_("Squad"),
        queryset=Squad.objects.none(),
        required=False,
        empty_label=_("no squad: single athletes"),
    )
    on_date = forms.DateField(label=_("Date"), widget=day_input(), initial=today)
    venue = forms.ModelChoiceField(
        label=_("Venue"), queryset=Venue.objects.filter(archived_at=None), empty_label=_("choose a venue")
    )
    week = WholeNumberField(
        label=_("Week of the plan"),
        least=1,
        most=52,
        initial=1,
        widget=forms.NumberInput(attrs={"class": "short"}),
    )
    athlete = forms.ModelMultipleChoiceField(
        label=_("Athletes"),
        queryset=Athlete.objects.none(),
        required=False,
        error_messages={"invalid_choice": _("One of these athletes is no longer yours to give a session to.")},
    )

    def __init__(self, data: Any = None, *, actor: Actor, initial: dict[str, Any] | None = None) -> None:
        super().__init__(data, initial=initial)
        fields = cast(Any, self.fields)
        sessions = Session.objects.visible_to(actor).live().filter(plan__archived_at=None)
        fields["session"].queryset = sessions.select_related("plan").order_by("plan__search_key", "week_from", "day")
        fields["squad"].queryset = Squad.objects.visible_to(actor).filter(archived_at=None)
        fields["athlete"].queryset = Athlete.objects.visible_to(actor).live()

    def clean_on_date(self) -> date:
        on_date: date = self.cleaned_data["on_date"]
        if abs(on_date - today()) > timedelta(days=366):
            raise ValidationError(_("More than a year away: please check the year."))
        return on_date


class RenewForm(forms.Form):
    """One card, or empty for every card that is out of date."""

    card = forms.IntegerField(required=False)


class SquadRoundForm(forms.Form):
    """One round of one block, done as planned by everyone present. The uuid makes a repeat change nothing."""

    uuid = forms.UUIDField(widget=forms.HiddenInput)
    label = forms.ChoiceField(label=_("Block"))
    number = WholeNumberField(label=_("Round"), least=1, most=40, widget=forms.NumberInput(attrs={"class": "short"}))
    early = forms.BooleanField(
        label=_("We do it today"),
        error_messages={"required": _("This session is of a coming day: tick this if you do it today.")},
    )

    def __init__(
        self, data: Any = None, *, rounds: dict[str, int], is_coming: bool, initial: dict[str, Any] | None = None
    ) -> None:
        """`rounds`: how many each block has at most, by its letter. `is_coming`: the session's day is not here yet."""
        super().__init__(data, initial=initial)
        self.rounds = rounds
        if not is_coming:
            del self.fields["early"]
        cast(Any, self.fields["label"]).choices = [(label, label) for label in rounds]

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        label, number = data.get("label"), data.get("number")
        if label and number and number > self.rounds[label]:
            told = {"label": label, "rounds": self.rounds[label]}
            self.add_error("number", ValidationError(_("Block %(label)s has %(rounds)s rounds."), params=told))
        return data


class TakeBackForm(forms.Form):
    """Which sending of a squad's round."""

    uuid = forms.UUIDField()


class MarkForm(forms.Form):
    """What one button says: "card group round quality"."""

    mark = forms.RegexField(r"^\d{1,18} \S{1,40} \d{1,2} (clean|shaky)$")

    @property
    def parts(self) -> tuple[int, str, int, SetQuality]:
        card, group, number, quality = self.cleaned_data["mark"].split()
        return int(card), group, int(number), SetQuality(quality)


class AttendanceForm(forms.Form):
    """What one button says: "card status"."""

    attendance = forms.RegexField(r"^\d{1,18} (present|absent)$")

    @property
    def parts(self) -> tuple[int, AttendanceStatus]:
        card, status = self.cleaned_data["attendance"].split()
        return int(card), AttendanceStatus(status)
