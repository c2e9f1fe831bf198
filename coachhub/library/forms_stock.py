"""The forms of a venue's stock: everything on one page, and a whole series of weights at once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final, cast

from django import forms
from django.db import models
from django.forms.models import model_to_dict
from django.utils.translation import gettext_lazy as _

from coachhub.library.forms_stock_rows import (
    UNITS,
    BarRows,
    CountField,
    MassField,
    PlateRows,
    StockRows,
    WeightRows,
)
from coachhub.library.forms_stock_scales import SIZED, ScaleRows, ScaleRowSet, SizedRows, scale_values, sized_values
from coachhub.library.models import (
    ALWAYS_THERE,
    BarKind,
    Equipment,
    StockBar,
    StockItem,
    StockPlate,
    StockWeight,
    Venue,
    WeightKind,
)
from coachhub.library.queries import exercise_names

SERIES_LIMIT: Final = 60
_WITH_ROWS: Final = {*BarKind.values, *WeightKind.values, *SIZED, Equipment.PLATES}
COUNTED: Final = [(code, label) for code, label in Equipment.choices if code not in _WITH_ROWS | ALWAYS_THERE]


class CountsForm(forms.Form):
    """One count for each kind that has no mass."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for code, label in COUNTED:
            self.fields[code] = CountField(label=label, required=False)


@dataclass(frozen=True, slots=True)
class StockForms:
    """The whole stock on one page, saved at once."""

    bars: StockRows
    plates: StockRows
    weights: StockRows
    scales: StockRows
    sized: StockRows
    counts: CountsForm
    names: list[str]

    @classmethod
    def of(cls, venue: Venue, data: Mapping[str, Any] | None = None) -> StockForms:
        is_new = data is None
        sized = [item for item in venue.items.all() if item.kind in SIZED]
        counts = {item.kind: item.count for item in venue.items.all()}
        return cls(
            bars=_bound(BarRows, "bars", venue, data, list(venue.bars.all())),
            plates=_bound(PlateRows, "plates", venue, data, list(venue.plates.all())),
            weights=_bound(WeightRows, "weights", venue, data, list(venue.weights.all())),
            scales=_scales(venue, data),
            sized=SizedRows(data, prefix="sized", initial=[sized_values(item) for item in sized] if is_new else None),
            counts=CountsForm(data, prefix="items", initial=counts),
            names=exercise_names(),
        )

    def is_valid(self) -> bool:
        parts = (self.bars, self.plates, self.weights, self.scales, self.sized, self.counts)
        return all(part.is_valid() for part in parts)

    @property
    def has_errors(self) -> bool:
        return self.counts.is_bound and not self.is_valid()

    def values(self) -> dict[str, Any]:
        """What `replace_stock` takes."""
        return {
            "bars": [StockBar(**row) for row in self.bars.kept],
            "plates": [StockPlate(**row) for row in self.plates.kept],
            "weights": [StockWeight(**row) for row in self.weights.kept],
            "scales": cast(ScaleRowSet, self.scales).scales,
            "sized": [StockItem(**row) for row in self.sized.kept],
            "counts": {kind: count for kind, count in self.counts.cleaned_data.items() if count},
        }


def _scales(venue: Venue, data: Mapping[str, Any] | None) -> StockRows:
    there = [scale_values(scale) for scale in venue.scales.all()] if data is None else None
    formset = ScaleRows(data, prefix="scales", initial=there)
    for form in formset.extra_forms:
        form.fields["unit"].initial = venue.unit
    return formset


def _bound(
    rows: type[StockRows], prefix: str, venue: Venue, data: Mapping[str, Any] | None, there: Sequence[models.Model]
) -> StockRows:
    """What was sent stands for itself: rows that are there now may not be those it was written from."""
    formset = rows(data, prefix=prefix, initial=[model_to_dict(row) for row in there] if data is None else None)
    for form in formset.extra_forms:
        form.fields["mass_unit"].initial = venue.unit
    return formset


class SeriesForm(forms.Form):
    """Such as dumbbells from 4 to 32 kg by 2, two of each."""

    kind = forms.ChoiceField(label=_("Kind"), choices=WeightKind.choices)
    lightest = MassField(label=_("From"))
    heaviest = MassField(label=_("To"))
    step = MassField(label=_("In steps of"))
    unit = forms.ChoiceField(label=_("Unit"), choices=UNITS)
    count = CountField(label=_("Pieces of each"), initial=2)

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        lightest, heaviest, step = data.get("lightest"), data.get("heaviest"), data.get("step")
        if lightest is None or heaviest is None or step is None:
            return data
        if heaviest < lightest:
            self.add_error("heaviest", _("This is lighter than the first one."))
        elif (heaviest - lightest) % step:
            self.add_error("step", _("These steps do not end at the last mass."))
        elif (heaviest - lightest) / step >= SERIES_LIMIT:
            self.add_error("step", _("That would be more than %(limit)s masses.") % {"limit": SERIES_LIMIT})
        return data
