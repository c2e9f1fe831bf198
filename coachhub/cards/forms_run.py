"""Giving a whole plan: when its first week is, on which weekday each of its days, where."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Any, Final, cast

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.cards.actions.runs import Step
from coachhub.cards.forms import day_input
from coachhub.coaching.fitting import week_start
from coachhub.library.models import Venue
from coachhub.people.models import Squad
from coachhub.plans.models import Plan, Session
from coachhub.season.models import Weekday

# What a plan's days fall on as long as nobody says otherwise: every other day from Monday on (common practice).
USUAL: Final = (Weekday.MONDAY, Weekday.WEDNESDAY, Weekday.FRIDAY, Weekday.TUESDAY, Weekday.THURSDAY, Weekday.SATURDAY)


class GivePlanForm(forms.Form):
    """`day_1`, `day_2` …: the weekday of each day that the plan has."""

    uuid = forms.UUIDField(widget=forms.HiddenInput)
    squad = forms.ModelChoiceField(label=_("Squad"), queryset=Squad.objects.none(), empty_label=_("choose a squad"))
    starts_on = forms.DateField(label=_("Week 1 is the week of"), widget=day_input(), initial=today)
    venue = forms.ModelChoiceField(
        label=_("Venue"), queryset=Venue.objects.filter(archived_at=None), empty_label=_("choose a venue")
    )

    def __init__(self, data: Any = None, *, actor: Actor, plan: Plan, initial: dict[str, Any] | None = None) -> None:
        super().__init__(data, initial={"squad": plan.squad_id, **(initial or {})})
        self.plan = plan
        self.sessions = list(Session.objects.live().filter(plan=plan))
        squads = Squad.objects.visible_to(actor).filter(archived_at=None)
        cast(Any, self.fields["squad"]).queryset = squads.filter(pk=plan.squad_id) if plan.squad_id else squads
        for place, day in enumerate(self.days):
            self.fields[f"day_{day}"] = forms.TypedChoiceField(
                label=_("Day %(day)s on") % {"day": day},
                choices=Weekday.choices,
                coerce=int,
                initial=USUAL[place % len(USUAL)],
            )

    @property
    def days(self) -> tuple[int, ...]:
        return tuple(sorted({session.day for session in self.sessions}))

    @property
    def day_fields(self) -> list[forms.BoundField]:
        return [self[f"day_{day}"] for day in self.days]

    def clean_starts_on(self) -> date:
        starts_on: date = self.cleaned_data["starts_on"]
        if not -7 <= (starts_on - today()).days <= 366:
            raise ValidationError(_("A week from this one to one within a year, please."))
        return starts_on

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        weekdays = [data[name] for name in (f"day_{day}" for day in self.days) if name in data]
        if len(weekdays) > len(set(weekdays)):
            self.add_error(f"day_{self.days[-1]}", _("Two days of the plan fall on the same weekday."))
        return data

    @property
    def steps(self) -> Sequence[Step]:
        """Every session on its day, by date; days that are over are left out."""
        data = self.cleaned_data
        found = [
            Step(
                session,
                week,
                week_start(data["starts_on"], week) + timedelta(days=data[f"day_{session.day}"]),
                data["venue"],
            )
            for session in self.sessions
            for week in session.weeks
            if week <= self.plan.weeks
        ]
        return sorted((one for one in found if one.on_date >= today()), key=lambda one: (one.on_date, one.session.pk))
