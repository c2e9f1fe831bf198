"""The library's filters and a venue's particulars."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django import forms
from django.utils.translation import gettext_lazy as _

from coachhub.base.models import Pattern, SegmentKind
from coachhub.base.text import fold
from coachhub.library.models import Equipment, Venue

if TYPE_CHECKING:
    VenueModelForm = forms.ModelForm[Venue]
else:
    VenueModelForm = forms.ModelForm


def _any_or(label: Any, choices: list[tuple[str, Any]]) -> list[tuple[str, Any]]:
    return [("", label), *choices]


class LibraryFilter(forms.Form):
    """Every field may be left empty; a value that is not known is said beside its field and filters nothing."""

    q = forms.CharField(
        label=_("Search"),
        required=False,
        max_length=80,
        help_text=_("Name, other name, pattern or equipment."),
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
    class Meta:
        model = Venue
        fields = ["name", "unit", "is_supervised", "note"]
        help_texts = {"unit": _("New rows of stock start in this unit.")}

    def clean_name(self) -> str:
        name = " ".join(str(self.cleaned_data["name"]).split())
        if Venue.objects.filter(search_key=fold(name)).exclude(pk=self.instance.pk).exists():
            raise forms.ValidationError(_("There is a venue with this name."), code="taken")
        return name
