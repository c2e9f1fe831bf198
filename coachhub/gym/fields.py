"""Figures as thumbs type them: a comma for a point, the number pad, limits that a gym cannot reach."""

from __future__ import annotations

from decimal import Decimal
from typing import Any, Final, cast

from django import forms
from django.utils.translation import gettext_lazy as _

from coachhub.cards.words import number
from coachhub.coaching.notation.dose import MOST_LOAD, MOST_OF, DoseKind

# Reps in reserve as they are stored, in halves; beyond five nobody can tell.
RESERVES: Final = tuple((str(halves), number(Decimal(halves) / 2)) for halves in range(11))


class FigureField(forms.DecimalField):
    def __init__(self, *, most: int, decimals: int, **kwargs: Any) -> None:
        pad = "decimal" if decimals else "numeric"
        attrs = {"inputmode": pad, "autocomplete": "off", "maxlength": "9"} | kwargs.pop("attrs", {})
        super().__init__(
            min_value=0,
            max_value=most,
            decimal_places=decimals,
            widget=forms.TextInput(attrs=attrs),
            error_messages={
                "required": _("Write how many."),
                "invalid": _("Write a number, such as 62.5.") if decimals else _("Write a whole number."),
                "min_value": _("0 or more."),
                "max_value": _("That cannot be; %(limit_value)s at most."),
                "max_decimal_places": _("Write a whole number.") if not decimals else _("At most two decimals."),
            },
            **kwargs,
        )

    def to_python(self, value: Any) -> Any:
        return super().to_python(value.replace(",", ".").strip() if isinstance(value, str) else value)

    def prepare_value(self, value: Any) -> Any:
        return number(value) if isinstance(value, Decimal) else value


def load_field(unit: str, **kwargs: Any) -> FigureField:
    return FigureField(most=MOST_LOAD["lb" if unit == "lb" else "kg"], decimals=2, required=False, **kwargs)


def amount_field(dose_kind: str, **kwargs: Any) -> FigureField:
    """Required only where the set was done: the form says so."""
    most = MOST_OF[cast(DoseKind, dose_kind)]
    return FigureField(most=most, decimals=2 if dose_kind == "distance" else 0, required=False, **kwargs)


def reserve_field() -> forms.TypedChoiceField:
    return forms.TypedChoiceField(
        label=_("In reserve"),
        choices=[("", "–"), *RESERVES],
        coerce=int,
        empty_value=None,
        required=False,
    )
