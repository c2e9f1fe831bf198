"""Forms for who shares a station: one row an athlete, and who is kept together or apart."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, cast

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _g
from django.utils.translation import gettext_lazy as _

from coachhub.base.fields import WholeNumberField
from coachhub.cards.models import WishKind
from coachhub.cards.queries.stations import StationRow
from coachhub.people.models import Athlete


class StationsForm(forms.Form):
    """Per card a station, and the hole of the rack where a bar is lifted."""

    def __init__(
        self, data: Any = None, *, rows: Sequence[StationRow], stations: Mapping[int, int | None] | None = None
    ) -> None:
        super().__init__(data)
        self.rows = rows
        at = stations or {}
        for row in rows:
            label = _g("Station of %(name)s") % {"name": row.name}
            self.fields[f"s-{row.card_id}"] = _number(label, 99, at.get(row.card_id))
            if row.exercise_id:
                label = _g("Rack hole of %(name)s") % {"name": row.name}
                self.fields[f"h-{row.card_id}"] = _number(label, 60, row.hole)

    @property
    def stations(self) -> dict[int, int | None]:
        return {row.card_id: self.cleaned_data[f"s-{row.card_id}"] for row in self.rows}

    @property
    def holes(self) -> dict[int, int | None]:
        return {row.card_id: self.cleaned_data.get(f"h-{row.card_id}") for row in self.rows}


def _number(label: str, most: int, initial: int | None) -> WholeNumberField:
    widget = forms.NumberInput(attrs={"class": "short", "aria-label": label, "inputmode": "numeric"})
    return WholeNumberField(label=label, required=False, least=1, most=most, initial=initial, widget=widget)


class WishForm(forms.Form):
    athlete = forms.ModelChoiceField(label=_("One"), queryset=Athlete.objects.none(), empty_label=_("choose"))
    other = forms.ModelChoiceField(label=_("The other"), queryset=Athlete.objects.none(), empty_label=_("choose"))
    kind = forms.ChoiceField(label=_("Kept"), choices=WishKind.choices)
    word = forms.CharField(
        label=_("A word on it"),
        max_length=30,
        required=False,
        help_text=_("Such as “same height”. Nothing on health, nothing private."),
    )

    def __init__(self, data: Any = None, *, rows: Sequence[StationRow]) -> None:
        super().__init__(data)
        athletes = Athlete.objects.filter(pk__in=[row.athlete_id for row in rows])
        for name in ("athlete", "other"):
            cast(Any, self.fields[name]).queryset = athletes

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        if data.get("athlete") and data.get("athlete") == data.get("other"):
            self.add_error("other", ValidationError(_("Choose two different athletes.")))
        return data
