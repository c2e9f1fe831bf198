"""Forms for what stands at a venue: rows of bars, plates and weights, plain counts, and a whole series at once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING, Any, ClassVar, Final, cast

from django import forms
from django.db import models
from django.forms.models import model_to_dict
from django.utils.translation import gettext_lazy as _

from coachhub.base.models import MassUnit
from coachhub.library.models import (
    ALWAYS_THERE,
    BarKind,
    Equipment,
    StockBar,
    StockPlate,
    StockWeight,
    Venue,
    WeightKind,
)

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

# Above any bar, plate or dumbbell there is, in either unit: what is larger is a slip of the hand.
MASS_LIMIT: Final = 150
COLLAR_LIMIT: Final = 10
COUNT_LIMIT: Final = 200
SERIES_LIMIT: Final = 60
BLANK_ROWS: Final = 3

UNITS: Final = [(unit, unit) for unit in MassUnit.values]
COUNTED: Final = [
    (code, label)
    for code, label in Equipment.choices
    if code not in {*ALWAYS_THERE, *BarKind.values, *WeightKind.values, Equipment.PLATES}
]


class MassField(forms.DecimalField):
    """A mass as people type it: a comma is a point. Kept as text, so that a wrong one can be shown again."""

    def __init__(
        self, *, label: StrOrPromise, required: bool = True, least: str = "0.01", most: int = MASS_LIMIT
    ) -> None:
        widget = forms.TextInput(attrs={"inputmode": "decimal", "autocomplete": "off", "class": "short"})
        super().__init__(
            label=label,
            required=required,
            min_value=Decimal(least),
            max_value=most,
            decimal_places=2,
            widget=widget,
            error_messages={
                "invalid": _("Write a number, such as 2.5."),
                "min_value": _("Too light to be true; %(limit_value)s at least."),
                "max_value": _("That is too heavy to be true; %(limit_value)s at most."),
            },
        )

    def clean(self, value: Any) -> Any:
        return super().clean(value.replace(",", ".") if isinstance(value, str) else value)

    def prepare_value(self, value: Any) -> Any:
        return f"{value.normalize():f}" if isinstance(value, Decimal) else value


class CountField(forms.IntegerField):
    def __init__(self, **kwargs: Any) -> None:
        attrs = {"inputmode": "numeric", "autocomplete": "off", "class": "short"}
        messages = {
            "invalid": _("Write a whole number."),
            "min_value": _("0 or more."),
            "max_value": _("%(limit_value)s at most."),
        }
        widget = forms.TextInput(attrs=attrs)
        super().__init__(min_value=0, max_value=COUNT_LIMIT, widget=widget, error_messages=messages, **kwargs)


class StockRow(forms.Form):
    """One row; without a mass, or with a count of 0, there is nothing to keep."""

    key_fields: ClassVar[tuple[str, ...]] = ("mass_value", "mass_unit")
    count_field: ClassVar[str] = "count"

    mass_value = MassField(label=_("Mass"), required=False)
    mass_unit = forms.ChoiceField(label=_("Unit"), choices=UNITS)

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        if data.get("mass_value") is not None and data.get(self.count_field, 0) is None:
            self.add_error(self.count_field, _("How many are there? 0 takes the row away."))
        return data

    @property
    def is_kept(self) -> bool:
        data = self.cleaned_data
        return data.get("mass_value") is not None and bool(data.get(self.count_field))

    @property
    def key(self) -> tuple[Any, ...]:
        return tuple(self.cleaned_data.get(name) for name in self.key_fields)


class BarRow(StockRow):
    key_fields = ("kind", "mass_value", "mass_unit")

    kind = forms.ChoiceField(label=_("Kind"), choices=BarKind.choices)
    collar_value = MassField(label=_("Each collar"), required=False, least="0", most=COLLAR_LIMIT)
    count = CountField(label=_("How many"), required=False, initial=1)
    field_order = ("kind", "mass_value", "mass_unit", "collar_value", "count")

    def clean_collar_value(self) -> Decimal:
        return self.cleaned_data["collar_value"] or Decimal(0)


class PlateRow(StockRow):
    count_field = "pairs"

    pairs = CountField(label=_("Pairs"), required=False, initial=1)


class WeightRow(StockRow):
    key_fields = ("kind", "mass_value", "mass_unit")

    kind = forms.ChoiceField(label=_("Kind"), choices=WeightKind.choices)
    count = CountField(label=_("Pieces"), required=False, initial=2)
    field_order = ("kind", "mass_value", "mass_unit", "count")


if TYPE_CHECKING:
    RowFormSet = forms.BaseFormSet[StockRow]
else:
    RowFormSet = forms.BaseFormSet


class StockRows(RowFormSet):
    """Rows of one table; the same mass twice is said beside the second."""

    def clean(self) -> None:
        seen: set[tuple[Any, ...]] = set()
        for form in self.forms:
            if not form.is_valid() or not form.is_kept:
                continue
            if form.key in seen:
                form.add_error("mass_value", _("This mass is in another row; keep one of them."))
            seen.add(form.key)

    @property
    def kept(self) -> list[dict[str, Any]]:
        return [form.cleaned_data for form in self.forms if form.is_kept]


class CountsForm(forms.Form):
    """One count for each kind that has no mass."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for code, label in COUNTED:
            self.fields[code] = CountField(label=label, required=False)


def _rows(form: type[StockRow]) -> type[StockRows]:
    most = COUNT_LIMIT
    made = forms.formset_factory(
        form, formset=StockRows, extra=BLANK_ROWS, max_num=most, absolute_max=most, validate_max=True
    )
    return cast(type[StockRows], made)


BarRows, PlateRows, WeightRows = _rows(BarRow), _rows(PlateRow), _rows(WeightRow)


@dataclass(frozen=True, slots=True)
class StockForms:
    """The whole stock on one page, saved at once."""

    bars: StockRows
    plates: StockRows
    weights: StockRows
    counts: CountsForm

    @classmethod
    def of(cls, venue: Venue, data: Mapping[str, Any] | None = None) -> StockForms:
        counts = {item.kind: item.count for item in venue.items.all()}
        return cls(
            bars=_bound(BarRows, "bars", venue, data, list(venue.bars.all())),
            plates=_bound(PlateRows, "plates", venue, data, list(venue.plates.all())),
            weights=_bound(WeightRows, "weights", venue, data, list(venue.weights.all())),
            counts=CountsForm(data, prefix="items", initial=counts),
        )

    def is_valid(self) -> bool:
        parts = (self.bars, self.plates, self.weights, self.counts)
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
            "counts": {kind: count for kind, count in self.counts.cleaned_data.items() if count},
        }


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
