"""Forms of the floor's door: what is changed, for whom."""

from __future__ import annotations

from datetime import date
from typing import Any, Final, cast

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from coachhub.base.clock import today
from coachhub.base.fields import WholeNumberField
from coachhub.cards.forms import day_input
from coachhub.coaching.door import DoorStep
from coachhub.coaching.facts import GroupFacts, LineFacts, SessionFacts
from coachhub.library.models import Exercise, Venue
from coachhub.library.queries import exercises_called
from coachhub.people.models import Athlete, is_birthday_plausible

DOES: Final = ("block", "rounds", "swap", "venue")
MOST_ROUNDS: Final = 20


class DoorForm(forms.Form):
    """One change. `key` is a block's or a line's; an exercise is one of the coach's swaps, or found by its name."""

    do = forms.ChoiceField(choices=[(do, do) for do in DOES])
    key = forms.CharField(required=False, max_length=40)
    rounds = WholeNumberField(required=False, least=1, most=MOST_ROUNDS)
    swap = forms.IntegerField(required=False)
    exercise = forms.CharField(label=_("Another exercise"), required=False, max_length=60)
    venue = forms.ModelChoiceField(
        label=_("Place"), queryset=Venue.objects.filter(archived_at=None), required=False, empty_label=None
    )
    card = forms.IntegerField(required=False)

    def __init__(self, data: Any = None, *, session: SessionFacts) -> None:
        """`session`: with what is in force already."""
        super().__init__(data)
        self.session = session

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        if not self.errors:
            makers = {"block": self._block, "rounds": self._rounds, "swap": self._swap, "venue": self._venue}
            data["step"] = makers[data["do"]](data)
        return data

    @property
    def step(self) -> DoorStep:
        return cast(DoorStep, self.cleaned_data["step"])

    def _block(self, data: dict[str, Any]) -> DoorStep:
        group = self._group(data["key"])
        return DoorStep("block", group.key, label=group.label)

    def _rounds(self, data: dict[str, Any]) -> DoorStep:
        group, rounds = self._group(data["key"]), data.get("rounds")
        if rounds is None or rounds == group.rounds_max:
            raise ValidationError(_("Say how many rounds there should be."))
        return DoorStep("rounds", group.key, rounds, group.label, str(group.rounds_max), str(rounds))

    def _swap(self, data: dict[str, Any]) -> DoorStep:
        label, line = self._line(data["key"])
        exercise = self._exercise(data)
        was = self.session.exercises[line.swap_ids[0] if line.against else line.exercise_id]
        return DoorStep("swap", line.key, exercise.pk, label, was.name, exercise.name)

    def _venue(self, data: dict[str, Any]) -> DoorStep:
        venue = data.get("venue")
        if venue is None:
            raise ValidationError(_("Choose a place."))
        return DoorStep("venue", value=venue.pk, now=venue.name)

    def _group(self, key: str) -> GroupFacts:
        found = next((one for one in self.session.groups if one.key == key and one.label), None)
        if found is None:
            raise ValidationError(_("This block is no longer in the session."))
        return found

    def _line(self, key: str) -> tuple[str, LineFacts]:
        for group in self.session.groups:
            for place, line in enumerate(group.lines, 1):
                if line.key == key:
                    return f"{group.label}{place}", line
        raise ValidationError(_("This exercise is no longer in the session."))

    def _exercise(self, data: dict[str, Any]) -> Exercise:
        """What is typed goes before what is chosen."""
        typed = data.get("exercise", "")
        found = next(iter(exercises_called([typed]).values()), None) if typed else None
        if typed and (found is None or found.is_archived):
            self.add_error("exercise", _("No exercise of the library is called “%(name)s”.") % {"name": typed})
        if found is None and not typed and data.get("swap"):
            found = Exercise.objects.live().filter(pk=data["swap"]).first()
        if found is None:
            raise ValidationError(_("Choose the exercise that is done instead."))
        return found


class GuestForm(forms.ModelForm):  # type: ignore[type-arg]  # generic for the type checker only
    """As little as a safe card needs: the name, and the birthday, which decides what may be done."""

    class Meta:
        model = Athlete
        fields = ["given_name", "family_name", "born_on"]
        widgets = {"born_on": day_input()}

    def clean_born_on(self) -> date:
        born_on: date = self.cleaned_data["born_on"]
        if not is_birthday_plausible(born_on, today()):
            raise ValidationError(_("Please check the year."))
        return born_on


class LateForm(forms.Form):
    """`cut`: which of the offers, by its place; empty where only the lateness is noted."""

    card = forms.IntegerField(widget=forms.HiddenInput)
    minutes = WholeNumberField(
        label=_("Minutes left of the slot"),
        least=1,
        most=300,
        widget=forms.NumberInput(attrs={"class": "short"}),
    )
    cut = forms.IntegerField(required=False, min_value=0, max_value=99)


class DoorSendForm(forms.Form):
    """What confirming sends with it: the uuid makes a repeat change nothing."""

    uuid = forms.UUIDField(widget=forms.HiddenInput)


class DoorUndoForm(forms.Form):
    """Which change is to be undone: a newer one must not go instead."""

    change = forms.IntegerField(widget=forms.HiddenInput)
