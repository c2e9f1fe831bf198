"""Rows of a venue's stock: bars, plates and weights; fields for masses and counts as people type them."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Any, ClassVar, Final, cast

from django import forms
from django.utils.translation import gettext_lazy as _

from coachhub.base.models import MassUnit
from coachhub.library.models import BarKind, WeightKind

if TYPE_CHECKING:
    from django_stubs_ext import StrOrPromise

# Above any bar, plate or dumbbell there is, in either unit: what is larger is a slip of the hand.
MASS_LIMIT: Final = 150
COLLAR_LIMIT: Final = 10
COUNT_LIMIT: Final = 200
BLANK_ROWS: Final = 3

UNITS: Final = [(unit, unit) for unit in MassUnit.values]


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


class LengthField(MassField):
    """A height or a length; typed like a mass."""

    def __init__(self, *, label: StrOrPromise, least: str, most: int) -> None:
        super().__init__(label=label, required=False, least=least, most=most)
        self.error_messages["min_value"] = _("%(limit_value)s at least.")
        self.error_messages["max_value"] = _("%(limit_value)s at most.")


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


class KeptRow(forms.Form):
    """One row of a table; `key_fields` tell it from the others, and the first of `twice` says where they do not."""

    key_fields: ClassVar[tuple[str, ...]] = ()
    twice: ClassVar[tuple[str, Any]] = ("", "")

    @property
    def is_kept(self) -> bool:
        raise TypeError("each kind of row says when there is something to keep")

    @property
    def key(self) -> tuple[Any, ...]:
        return tuple(self.cleaned_data.get(name) for name in self.key_fields)


class StockRow(KeptRow):
    """One mass; without it, or with a count of 0, there is nothing to keep."""

    key_fields: ClassVar[tuple[str, ...]] = ("mass_value", "mass_unit")
    twice = ("mass_value", _("This mass is in another row; keep one of them."))
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
    RowFormSet = forms.BaseFormSet[KeptRow]
else:
    RowFormSet = forms.BaseFormSet


class StockRows(RowFormSet):
    """Rows of one table; the same thing twice is said beside the second."""

    def clean(self) -> None:
        seen: set[tuple[Any, ...]] = set()
        for form in self.forms:
            if not form.is_valid() or not form.is_kept:
                continue
            if form.key in seen:
                form.add_error(*form.twice)
            seen.add(form.key)

    @property
    def kept(self) -> list[dict[str, Any]]:
        return [form.cleaned_data for form in self.forms if form.is_kept]


def rows_of(form: type[KeptRow], base: type[StockRows] = StockRows, blank: int = BLANK_ROWS) -> type[StockRows]:
    most = COUNT_LIMIT
    made = forms.formset_factory(form, formset=base, extra=blank, max_num=most, absolute_max=most, validate_max=True)
    return cast(type[StockRows], made)


BarRows, PlateRows, WeightRows = rows_of(BarRow), rows_of(PlateRow), rows_of(WeightRow)
