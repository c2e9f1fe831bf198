"""Forms of own activation work and its saved sets."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final, cast

from django import forms
from django.core.exceptions import ValidationError
from django.utils.dates import WEEKDAYS
from django.utils.translation import gettext as _g
from django.utils.translation import gettext_lazy as _

from coachhub.base.clock import today
from coachhub.base.models import SegmentKind
from coachhub.coaching.notation import Dose, format_dose
from coachhub.library.models import Exercise
from coachhub.people.forms import day_input
from coachhub.people.models import Athlete, Squad
from coachhub.plans.actions_own import Whose
from coachhub.plans.dose import sets_and_dose
from coachhub.plans.forms_line import LineForm, which_exercise
from coachhub.plans.models import OwnItem
from coachhub.plans.queries import exercises_named
from coachhub.plans.reading import Reading, read_own_dose

# The exercises of this part are offered first.
PART: Final = SegmentKind.ACTIVATION.value
WHOLE_SQUAD: Final = "squad"


def review_field() -> forms.DateField:
    return forms.DateField(
        label=_("Look at it again on"),
        required=False,
        widget=day_input(),
        help_text=_("On this day the question is asked. Nothing ends by itself."),
    )


class OwnItemForm(forms.Form):
    """`positions`: those that are played in the squad, where the item is for a squad and new."""

    exercise = LineForm.base_fields["exercise"]
    notation = LineForm.base_fields["notation"]
    player_position = forms.ChoiceField(label=_("For"), required=False)
    goal = forms.CharField(
        label=_("Goal"), max_length=120, required=False, help_text=_("Stands on the card beside the exercise.")
    )
    weekdays = forms.TypedMultipleChoiceField(
        label=_("Weekdays"),
        required=False,
        coerce=int,
        choices=list(WEEKDAYS.items()),
        widget=forms.CheckboxSelectMultiple,
        help_text=_("None chosen: every day."),
    )
    from_on = forms.DateField(label=_("From"), widget=day_input())
    review_on = review_field()

    def __init__(self, data: Any = None, *, item: OwnItem | None = None, positions: Sequence[str] = ()) -> None:
        self.reading: Reading | None = None
        self.dose: Dose | None = None
        super().__init__(data, initial=_initial(item))
        if positions:
            choices = [("", _("the whole squad")), *((one, one) for one in positions)]
            cast(Any, self.fields["player_position"]).choices = choices
        else:
            del self.fields["player_position"]

    def clean_exercise(self) -> Exercise:
        named = self.cleaned_data["exercise"]
        found = exercises_named(named, segment=PART)
        if len(found) != 1:
            raise ValidationError(which_exercise(found), code="unclear")
        return found[0]

    def clean_notation(self) -> str:
        text: str = self.cleaned_data["notation"]
        self.reading = read_own_dose(text)
        self.dose = self.reading.dose
        if self.dose is None:
            raise ValidationError(self.reading.message, code="dose")
        return text

    def clean(self) -> dict[str, Any]:
        check_days(self)
        return self.cleaned_data

    @property
    def shown_reading(self) -> Reading | None:
        text = self["notation"].value() or ""
        return self.reading or (read_own_dose(text) if text and not self.is_bound else None)

    @property
    def values(self) -> dict[str, Any]:
        """What `add_item` and `edit_item` take."""
        names = ("exercise", "goal", "weekdays", "from_on", "review_on")
        return {
            **{name: self.cleaned_data[name] for name in names},
            "dose": self.dose,
            "sets": (self.dose.sets_max if self.dose else None) or 1,
        }

    def tell_twin(self) -> None:
        """The exercise is on the list already."""
        self.add_error("exercise", _g("This exercise is on the list already: change it there."))


def _initial(item: OwnItem | None) -> dict[str, Any]:
    if item is None:
        return {"from_on": today()}
    names = ("goal", "weekdays", "from_on", "review_on")
    return {
        **{name: getattr(item, name) for name in names},
        "exercise": item.exercise.name,
        "notation": format_dose(sets_and_dose(item)),
    }


def check_days(form: forms.Form) -> None:
    from_on, review_on = form.cleaned_data.get("from_on"), form.cleaned_data.get("review_on")
    if from_on and review_on and review_on < from_on:
        form.add_error("review_on", _g("This is before it begins."))


class KeepOwnForm(forms.Form):
    """It stays; when the question is asked again, if at all."""

    review_on = review_field()

    def clean_review_on(self) -> Any:
        review_on = self.cleaned_data["review_on"]
        if review_on and review_on <= today():
            raise ValidationError(_("Choose a day to come, or none."), code="past")
        return review_on


class SaveSetForm(forms.Form):
    name = forms.CharField(label=_("Name of the set"), max_length=80)


class GiveSetForm(forms.Form):
    """To a squad, to positions in it, to athletes of it: whoever is chosen."""

    whom = forms.MultipleChoiceField(label=_("To"), widget=forms.CheckboxSelectMultiple)
    from_on = forms.DateField(label=_("From"), widget=day_input(), initial=today)
    review_on = review_field()

    def __init__(
        self, data: Any = None, *, squad: Squad, positions: Sequence[str], athletes: Sequence[Athlete]
    ) -> None:
        self.squad = squad
        self.lists = {
            WHOLE_SQUAD: (_g("the whole squad"), Whose(squad=squad)),
            **{f"position:{one}": (_whoever(one), Whose(squad=squad, player_position=one)) for one in positions},
            **{str(one.pk): (one.name, Whose(athlete=one)) for one in athletes},
        }
        super().__init__(data)
        cast(Any, self.fields["whom"]).choices = [(key, label) for key, (label, _whose) in self.lists.items()]

    def clean(self) -> dict[str, Any]:
        check_days(self)
        return self.cleaned_data

    @property
    def whose(self) -> list[Whose]:
        return [self.lists[key][1] for key in self.cleaned_data["whom"]]


def _whoever(position: str) -> str:
    return _g("everyone who plays %(position)s") % {"position": position}
