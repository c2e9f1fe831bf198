"""Forms for people. They check; the verbs in `actions` write."""

from __future__ import annotations

from datetime import date
from typing import Any, cast
from zoneinfo import available_timezones

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.base.fields import WholeNumberField
from coachhub.people.models import (
    Athlete,
    Availability,
    AvailabilityStatus,
    Club,
    Membership,
    Squad,
    Staff,
    StaffRole,
    User,
    is_birthday_plausible,
)
from coachhub.people.queries import could_join, live_squads

# The colours that static/css/tokens.css has in a light and a dark shade, contrast measured.
ACCENTS = [
    ("#0b5d4a", _("pine")),
    ("#1d3f7a", _("navy")),
    ("#8a2f14", _("brick")),
    ("#6a2460", _("plum")),
    ("#37474f", _("slate")),
]


def day_input() -> forms.DateInput:
    return forms.DateInput(format="%Y-%m-%d", attrs={"type": "date"})


class SquadForm(forms.ModelForm):  # type: ignore[type-arg]  # generic for the type checker only
    class Meta:
        model = Squad
        fields = ["name", "note", "is_paper_only"]


class AthleteForm(forms.ModelForm):  # type: ignore[type-arg]
    class Meta:
        model = Athlete
        fields = [
            "given_name",
            "family_name",
            "born_on",
            "level",
            "is_rir_taught",
            "unit",
            "position",
            "dominant_side",
            "emergency_contact",
            "health_alert",
            "note",
        ]
        widgets = {"born_on": day_input()}
        help_texts = {
            "level": _("How sure the lifts are, not how good a player."),
            "emergency_contact": _("Who to call, and the number. Everyone on the floor sees it."),
            "health_alert": _("What must be known in an emergency. Everyone on the floor sees it."),
            "note": _("Seen by the owner, the athlete's coaches and the clinician. Not by the athlete."),
        }

    def clean_born_on(self) -> date:
        born_on: date = self.cleaned_data["born_on"]
        if not is_birthday_plausible(born_on, today()):
            raise ValidationError(_("Please check the year."))
        return born_on


class NewAthleteForm(AthleteForm):
    """With the squad the athlete joins today."""

    squad = forms.ModelChoiceField(label=_("Squad"), queryset=Squad.objects.none(), empty_label=_("choose a squad"))

    def __init__(self, *args: Any, actor: Actor, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["squad"].queryset = live_squads(actor)  # type: ignore[attr-defined]
        # Without a squad only the owner would find the athlete again.
        self.fields["squad"].required = not actor.sees_all
        self.order_fields(["given_name", "family_name", "born_on", "squad"])


class JoinForm(forms.Form):
    """Which athlete joins the squad, from which day on."""

    athlete = forms.ModelChoiceField(
        label=_("Athlete"), queryset=Athlete.objects.none(), empty_label=_("choose an athlete")
    )
    started_on = forms.DateField(label=_("From"), widget=day_input(), initial=today)

    def __init__(self, *args: Any, actor: Actor, squad: Squad, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["athlete"].queryset = could_join(actor, squad, today())  # type: ignore[attr-defined]


class LeaveForm(forms.ModelForm):  # type: ignore[type-arg]
    ended_on = forms.DateField(label=_("Last day in the squad"), widget=day_input(), initial=today)

    class Meta:
        model = Membership
        fields = ["ended_on"]

    def clean_ended_on(self) -> date:
        ended_on: date = self.cleaned_data["ended_on"]
        if ended_on < self.instance.started_on:
            raise ValidationError(_("The last day cannot be before the first."))
        return ended_on


class AvailabilityForm(forms.ModelForm):  # type: ignore[type-arg]
    from_on = forms.DateField(label=_("From"), widget=day_input(), initial=today)

    class Meta:
        model = Availability
        fields = ["status", "from_on", "can_do"]
        help_texts = {"can_do": _("Head coach and assistants read this: no diagnosis here.")}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        cast(Any, self.fields["status"]).choices = [("", _("choose")), *AvailabilityStatus.choices]


class StaffForm(forms.Form):
    name = forms.CharField(label=_("Name"), max_length=120)
    role = forms.ChoiceField(label=_("Role"), choices=StaffRole.choices, initial=StaffRole.COACH)
    squads = forms.ModelMultipleChoiceField(
        label=_("Squads"),
        queryset=Squad.objects.filter(archived_at=None),
        required=False,
        widget=forms.CheckboxSelectMultiple,
        help_text=_("An owner sees all squads; everyone else sees nobody without one."),
    )
    email = forms.EmailField(
        label=_("E-mail"), required=False, max_length=254, help_text=_("May be used to log in. Nothing is sent to it.")
    )

    def __init__(self, *args: Any, staff: Staff | None = None, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.staff = staff
        if staff is not None:
            self.initial = {
                "name": staff.name,
                "role": staff.role,
                "squads": staff.squads.all(),
                "email": staff.user.email,
            }

    def clean_email(self) -> str:
        email = str(self.cleaned_data["email"])
        others = User.objects.exclude(pk=self.staff.user_id) if self.staff else User.objects.all()
        if email and others.filter(email__iexact=email).exists():
            raise ValidationError(_("Someone else logs in with this address."))
        return email


class PasswordForm(forms.Form):
    """Told to the person, who changes it at the first log-in."""

    password = forms.CharField(
        label=_("Password"),
        max_length=200,
        strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "new-password"}),
        help_text=_("15 characters or more: a few words that nobody would put together."),
    )


class NewStaffForm(PasswordForm, StaffForm):
    username = forms.CharField(label=_("User name"), max_length=150)
    field_order = ["name", "role", "squads", "username", "email", "password"]

    def clean_username(self) -> str:
        username = str(self.cleaned_data["username"])
        User.username_validator(username)
        if User.objects.filter(username__iexact=username).exists():
            raise ValidationError(_("This user name is taken."))
        return username


class ClubForm(forms.ModelForm):  # type: ignore[type-arg]
    accent = forms.ChoiceField(label=_("Colour"), choices=ACCENTS, widget=forms.RadioSelect)
    gap_days = WholeNumberField(
        least=7,
        most=90,
        label=_("A break that is eased, in days"),
        help_text=_(
            "After so many days without a movement pattern the first cards are eased, fewer sets first. "
            "Cards that are given already take it up when they are renewed."
        ),
    )

    class Meta:
        model = Club
        fields = ["name", "unit", "time_zone", "accent", "gap_days"]
        help_texts = {
            "unit": _("For new athletes and venues. What was lifted keeps the unit it was seen in."),
            "time_zone": _("Such as Europe/London. Decides when a day begins."),
        }

    def clean_time_zone(self) -> str:
        zone = str(self.cleaned_data["time_zone"])
        if zone not in available_timezones():
            raise ValidationError(_("Not a time zone; they look like Europe/London."))
        return zone
