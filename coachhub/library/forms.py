"""The library's filters and a venue's particulars."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from django import forms
from django.utils.translation import gettext_lazy as _

from coachhub.base.models import Pattern, SegmentKind
from coachhub.base.text import fold
from coachhub.library.forms_stock_rows import CountField, LengthField
from coachhub.library.models import Equipment, LengthUnit, Venue

if TYPE_CHECKING:
    VenueModelForm = forms.ModelForm[Venue]
else:
    VenueModelForm = forms.ModelForm


LANE_LIMIT: Final = 200


def _any_or(label: Any, choices: list[tuple[str, Any]]) -> list[tuple[str, Any]]:
    return [("", label), *choices]


class LibraryFilter(forms.Form):
    """Every field may be left empty; a value that is not known is said beside its field and filters nothing."""

    q = forms.CharField(
        label=_("Search"),
        required=False,
        max_length=80,
        help_text=_("Name, other name, family, pattern or equipment."),
        widget=forms.TextInput(attrs={"type": "search", "autocomplete": "off"}),
    )
    pattern = forms.ChoiceField(label=_("Pattern"), required=False, choices=_any_or(_("any"), Pattern.choices))
    segment = forms.ChoiceField(
        label=_("Part of the session"), required=False, choices=_any_or(_("any"), SegmentKind.choices)
    )
    equipment = forms.ChoiceField(label=_("Uses"), required=False, choices=_any_or(_("any"), Equipment.choices))
    venue = forms.ModelChoiceField(
        label=_("Can be done at"),
        required=False,
        empty_label=_("anywhere"),
        queryset=Venue.objects.filter(archived_at=None),
    )
    family = forms.CharField(required=False, max_length=40, widget=forms.HiddenInput)
    show = forms.ChoiceField(
        label=_("Show"),
        required=False,
        choices=[
            ("", _("all in use")),
            ("unreviewed", _("loaded regions not reviewed")),
            ("own", _("written or changed here")),
            ("newer", _("newer text available")),
            ("archived", _("put away")),
        ],
    )


class VenueForm(VenueModelForm):
    capacity = CountField(label=_("Places on the floor"), required=False)
    lane_value = LengthField(label=_("Carry lane"), least="1", most=LANE_LIMIT)
    lane_unit = forms.ChoiceField(label=_("Unit of the lane"), required=False, choices=LengthUnit.choices)

    class Meta:
        model = Venue
        fields = ["name", "unit", "is_supervised", "capacity", "lane_value", "lane_unit", "note"]
        help_texts = {
            "unit": _("New rows of stock start in this unit."),
            "capacity": _("How many can train at once; empty where nobody has counted."),
            "lane_value": _("Length of the way that carries and sleds have here."),
        }

    def clean_capacity(self) -> int | None:
        return self.cleaned_data["capacity"] or None

    def clean_lane_unit(self) -> str:
        return self.cleaned_data["lane_unit"] or LengthUnit.M.value

    def clean_name(self) -> str:
        name = " ".join(str(self.cleaned_data["name"]).split())
        other = Venue.objects.filter(search_key=fold(name)).exclude(pk=self.instance.pk).first()
        if other is not None and other.is_archived:
            raise forms.ValidationError(_("A venue that was put away has this name; bring it back."), code="taken")
        if other is not None:
            raise forms.ValidationError(_("There is a venue with this name."), code="taken")
        return name
