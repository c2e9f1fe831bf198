"""The form of an exercise: its particulars, and which regions it loads."""

from __future__ import annotations

from typing import Any, Final

from django import forms
from django.db import models
from django.utils.translation import gettext_lazy as _

from coachhub.base.models import Pattern, Region, SegmentKind
from coachhub.base.text import fold
from coachhub.library.content import Content, head_to_foot
from coachhub.library.fields import CodesField, LinesField
from coachhub.library.forms_stock_rows import CountField
from coachhub.library.models import Direction, Exercise, Laterality, LoadMeaning, Measure, SideSense, Spotting

MOST_PATTERNS: Final = 5
MOST_DIRECTIONS: Final = 6
NAME_LENGTH: Final = 60
DEMAND_LABELS: Final = [
    ("impact", _("impact: jumps, landings, sprints")),
    ("overhead", _("overhead")),
    ("grip", _("heavy grip")),
    ("deep_range", _("near the end of range")),
]


def _asked(choices: type[models.TextChoices]) -> list[tuple[str, Any]]:
    """Without a default: what nobody chose must not look chosen."""
    return [("", _("choose …")), *choices.choices]


class ExerciseForm(forms.Form):
    name = forms.CharField(label=_("Name"), max_length=NAME_LENGTH)
    also = LinesField(label=_("Also known as"), each=NAME_LENGTH, help_text=_("One name a line."))
    family = forms.CharField(
        label=_("Family"),
        max_length=40,
        required=False,
        help_text=_("Such as “lunge”: exercises that build on one another."),
        widget=forms.TextInput(attrs={"list": "family-names", "autocomplete": "off"}),
    )
    family_rank = CountField(label=_("Place in it, 1 the easiest"), required=False)
    segment = forms.ChoiceField(label=_("Part of the session"), choices=_asked(SegmentKind))
    patterns = CodesField(
        label=_("Patterns"),
        choices=Pattern.choices,
        most=MOST_PATTERNS,
        more=_("and …"),
        help_text=_("The main one first. Two exercises in one, such as a lunge with a row, take both."),
    )
    directions = CodesField(
        label=_("Directions"),
        choices=Direction.choices,
        most=MOST_DIRECTIONS,
        more=_("then …"),
        help_text=_("In the order they are done. With several, each may have cues of its own below."),
    )
    laterality = forms.ChoiceField(label=_("Sides"), choices=_asked(Laterality))
    measure = forms.ChoiceField(label=_("Measured by"), choices=_asked(Measure))
    load = forms.ChoiceField(label=_("The load means"), choices=_asked(LoadMeaning))
    demands = forms.MultipleChoiceField(
        label=_("Demands"), choices=DEMAND_LABELS, required=False, widget=forms.CheckboxSelectMultiple
    )
    why = forms.CharField(label=_("What it is for"), max_length=160, required=False)
    faults = LinesField(label=_("Common faults"), each=100, total=300, help_text=_("One a line; no semicolon."))
    spotting = forms.ChoiceField(label=_("Spotting"), choices=_asked(Spotting))
    needs_supervision = forms.BooleanField(
        label=_("Not unsupervised"),
        required=False,
        initial=True,
        help_text=_("Ticked: under-18s do it only where a coach is present."),
    )

    def __init__(self, *args: Any, own: Exercise | None = None, **kwargs: Any) -> None:
        self.own = own
        super().__init__(*args, **kwargs)

    def clean_name(self) -> str:
        name = " ".join(str(self.cleaned_data["name"]).split())
        others = Exercise.objects.filter(search_key=fold(name))
        other = (others.exclude(pk=self.own.pk) if self.own else others).first()
        if other is not None and other.is_archived:
            raise forms.ValidationError(_("An exercise that was put away has this name; bring it back."), code="taken")
        if other is not None:
            raise forms.ValidationError(_("There is an exercise with this name."), code="taken")
        return name

    def clean_family(self) -> str:
        return " ".join(str(self.cleaned_data["family"]).lower().split())

    def clean_family_rank(self) -> int:
        return self.cleaned_data["family_rank"] or 0

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        if data.get("family") and data.get("family_rank") == 0:
            self.add_error("family_rank", _("Which place does it have, from 1 for the easiest?"))
        if data.get("family_rank") and data.get("family") == "":
            self.add_error("family", _("A place wants a family."))
        return data

    def clean_faults(self) -> tuple[str, ...]:
        faults: tuple[str, ...] = self.cleaned_data["faults"]
        if any(";" in fault for fault in faults):
            raise forms.ValidationError(_("No semicolon, please: each fault has its own line."), code="semicolon")
        return faults


class RegionsForm(forms.Form):
    """A side for each region that is loaded, and whether someone stands behind the list."""

    is_reviewed = forms.BooleanField(
        label=_("Loaded regions reviewed"),
        required=False,
        help_text=_(
            "I know this exercise, and it loads the regions above and no other in earnest. "
            "Until someone ticks this it counts as loading every region: nobody with a restriction or pain gets it."
        ),
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        senses = [("", _("not loaded")), *SideSense.choices]
        for code, label in Region.choices:
            self.fields[code] = forms.ChoiceField(label=label, choices=senses, required=False)

    @property
    def sides(self) -> list[forms.BoundField]:
        return [self[code] for code in Region.values]

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        if data.get("is_reviewed") and not any(data.get(code) for code in Region.values) and not self.errors:
            self.add_error("is_reviewed", _("Name at least one region first; every exercise loads something."))
        return data

    @property
    def loaded(self) -> tuple[tuple[str, str], ...]:
        return head_to_foot((code, self.cleaned_data[code]) for code in Region.values if self.cleaned_data[code])


def main_values(content: Content) -> dict[str, Any]:
    """What `ExerciseForm` starts with."""
    return {name: getattr(content, name) for name in ExerciseForm.base_fields} | {
        "demands": sorted(content.demands),
        "family_rank": content.family_rank or None,
    }
