"""Forms of athletes' levels in families of exercises."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Final, cast

from django import forms
from django.utils.translation import gettext_lazy as _

from coachhub.base.clock import today
from coachhub.library.models import Exercise
from coachhub.people.forms import day_input
from coachhub.people.models import Athlete

AS_WRITTEN: Final = "written:"


def reason_field() -> forms.CharField:
    return forms.CharField(label=_("Why"), max_length=200)


class LevelForm(forms.Form):
    """One variation of one family; for the one athlete of the page, or for those chosen of `athletes`."""

    athletes = forms.MultipleChoiceField(label=_("For"), widget=forms.CheckboxSelectMultiple)
    to = forms.ChoiceField(label=_("Variation"))
    reason = reason_field()
    from_on = forms.DateField(label=_("From"), widget=day_input(), initial=today)

    def __init__(
        self, data: Any = None, *, families: Mapping[str, Sequence[Exercise]], athletes: Sequence[Athlete] = ()
    ) -> None:
        self.members = {str(one.pk): one for members in families.values() for one in members}
        self.people = {str(one.pk): one for one in athletes}
        super().__init__(data)
        cast(Any, self.fields["to"]).choices = [("", _("choose")), *map(_choices_of, families.items())]
        if athletes:
            cast(Any, self.fields["athletes"]).choices = [(key, one.name) for key, one in self.people.items()]
        else:
            del self.fields["athletes"]

    @property
    def exercise(self) -> Exercise | None:
        """None: as the session is written."""
        return self.members.get(self.cleaned_data["to"])

    @property
    def family(self) -> str:
        return self.exercise.family if self.exercise else str(self.cleaned_data["to"]).removeprefix(AS_WRITTEN)

    @property
    def chosen(self) -> list[Athlete]:
        return [self.people[key] for key in self.cleaned_data.get("athletes", ())]


class StepForm(forms.Form):
    """One step from an exercise's history: which way is the button that was pressed."""

    step = forms.ChoiceField(choices=[("up", "up"), ("down", "down")])
    reason = reason_field()


class AnswerForm(forms.Form):
    """Proposed steps, taken or declined together; what is no longer proposed has had its answer."""

    steps = forms.MultipleChoiceField(widget=forms.CheckboxSelectMultiple)
    answer = forms.ChoiceField(choices=[("accept", "accept"), ("decline", "decline")])

    def __init__(self, data: Any = None, *, keys: Sequence[str]) -> None:
        super().__init__(data)
        cast(Any, self.fields["steps"]).choices = [(key, key) for key in keys]


def _choices_of(family: tuple[str, Sequence[Exercise]]) -> tuple[str, list[tuple[str, Any]]]:
    name, members = family
    return name, [
        *((str(one.pk), one.name) for one in members),
        (f"{AS_WRITTEN}{name}", _("as the session is written")),
    ]
