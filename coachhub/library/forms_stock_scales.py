"""Rows of a venue's stock without a mass: what machines and cables can be set to, bands, boxes."""

from __future__ import annotations

from decimal import Decimal, InvalidOperation
from itertools import pairwise
from typing import Any, Final

from django import forms
from django.forms.models import model_to_dict
from django.utils.translation import gettext_lazy as _

from coachhub.base.models import LoadUnit
from coachhub.base.text import fold
from coachhub.library.forms_stock_rows import CountField, KeptRow, LengthField, MassField, StockRows, rows_of
from coachhub.library.models import Equipment, HeightUnit, ScaleKind, StockItem, StockScale
from coachhub.library.queries import exercises_called

# Above any machine there is, in either unit.
SETTING_LIMIT: Final = 1500
MOST_SETTINGS: Final = 120
HEIGHT_LIMIT: Final = 250
SIZED: Final = (Equipment.MINI_BAND, Equipment.LONG_BAND, Equipment.BOX, Equipment.LOW_BOX, Equipment.STEP)


class ScaleRow(KeptRow):
    """From, step and to; or each setting. Without a name there is nothing to keep."""

    key_fields = ("kind", "name", "only_for")
    twice = ("name", _("This one is in another row; keep one of them."))

    name = forms.CharField(label=_("Name"), max_length=40, required=False)
    kind = forms.ChoiceField(label=_("Kind"), choices=ScaleKind.choices)
    unit = forms.ChoiceField(label=_("Its scale shows"), choices=LoadUnit.choices)
    lightest = MassField(label=_("From"), required=False, most=SETTING_LIMIT)
    step = MassField(label=_("In steps of"), required=False, most=SETTING_LIMIT)
    heaviest = MassField(label=_("To"), required=False, most=SETTING_LIMIT)
    each = forms.CharField(
        label=_("Or each setting"),
        max_length=600,
        required=False,
        widget=forms.TextInput(attrs={"autocomplete": "off", "placeholder": "5; 7.5; 12.5"}),
    )
    only_for = forms.CharField(
        label=_("Only for the exercise"),
        max_length=60,
        required=False,
        widget=forms.TextInput(attrs={"list": "exercise-names", "autocomplete": "off"}),
    )

    @property
    def is_kept(self) -> bool:
        return bool(self.cleaned_data.get("name"))

    def clean_each(self) -> list[Decimal]:
        texts = self.cleaned_data["each"].replace(";", " ").split()
        try:
            settings = sorted({Decimal(text.replace(",", ".")) for text in texts})
        except InvalidOperation as error:
            raise forms.ValidationError(_("Write numbers with semicolons between, such as 5; 7.5; 12.5.")) from error
        if not all(setting.is_finite() and 0 < setting <= SETTING_LIMIT for setting in settings):
            raise forms.ValidationError(_("Each is above 0, and %(most)s at most.") % {"most": SETTING_LIMIT})
        if any(setting != round(setting, 2) for setting in settings):
            raise forms.ValidationError(_("Two decimals at most."))
        return settings

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        if not data.get("name") and any(data.get(field) for field in ("lightest", "step", "heaviest", "each")):
            self.add_error("name", _("What is it called?"))
        if data.get("name") and not self.errors:
            data["settings"] = data["each"] or self._spaced(data)
            if len(data["settings"]) > MOST_SETTINGS:
                self.add_error("step", _("That would be more than %(most)s settings.") % {"most": MOST_SETTINGS})
        return data

    def _spaced(self, data: dict[str, Any]) -> list[Decimal]:
        """At most one more than are taken, so that a tiny step cannot make a million."""
        lightest, step, heaviest = data["lightest"], data["step"], data["heaviest"]
        if lightest is None or step is None or heaviest is None:
            self.add_error("lightest", _("Write from, step and to; or each setting."))
        elif heaviest < lightest:
            self.add_error("heaviest", _("This is lighter than the first one."))
        elif (heaviest - lightest) % step:
            self.add_error("step", _("These steps do not end at the last one."))
        else:
            count = min(int((heaviest - lightest) / step), MOST_SETTINGS) + 1
            return [lightest + step * n for n in range(count)]
        return []


class ScaleRowSet(StockRows):
    """Finds the exercises that machines stand for alone, by the names that were typed."""

    def clean(self) -> None:
        super().clean()
        named = [form for form in self.forms if form.is_valid() and form.is_kept and form.cleaned_data["only_for"]]
        found = exercises_called(form.cleaned_data["only_for"] for form in named)
        for form in named:
            exercise = found.get(fold(form.cleaned_data["only_for"]))
            if exercise is None:
                form.add_error("only_for", _("No exercise has this name."))
            form.cleaned_data["exercise"] = exercise

    @property
    def scales(self) -> list[StockScale]:
        return [
            StockScale(
                name=row["name"],
                kind=row["kind"],
                unit=row["unit"],
                settings=[f"{setting.normalize():f}" for setting in row["settings"]],
                exercise=row.get("exercise"),
            )
            for row in self.kept
        ]


class SizedRow(KeptRow):
    """Bands by colour or tension, boxes by height; either may stay open. Without a kind or count nothing is kept."""

    key_fields = ("kind", "label", "height_value", "height_unit")
    twice = ("kind", _("This one is in another row; keep one of them."))

    kind = forms.ChoiceField(
        label=_("Kind"), required=False, choices=[("", "–"), *((kind.value, kind.label) for kind in SIZED)]
    )
    label = forms.CharField(label=_("Colour or tension"), max_length=30, required=False)
    height_value = LengthField(label=_("Height"), least="0", most=HEIGHT_LIMIT)
    height_unit = forms.ChoiceField(label=_("Unit"), choices=[(unit, unit) for unit in HeightUnit.values])
    count = CountField(label=_("How many"), required=False, initial=1)

    @property
    def is_kept(self) -> bool:
        return bool(self.cleaned_data.get("kind") and self.cleaned_data.get("count"))

    def clean_height_value(self) -> Decimal:
        return self.cleaned_data["height_value"] or Decimal(0)

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        if not data.get("kind") and (data.get("label") or data.get("height_value")):
            self.add_error("kind", _("Which kind is it?"))
        if data.get("kind") and data.get("count", 0) is None:
            self.add_error("count", _("How many are there? 0 takes the row away."))
        return data


ScaleRows = rows_of(ScaleRow, ScaleRowSet, blank=1)
SizedRows = rows_of(SizedRow)


def sized_values(item: StockItem) -> dict[str, Any]:
    """What a row starts with; a height nobody has measured stays blank."""
    return model_to_dict(item) | {"height_value": item.height_value or None}


def scale_values(scale: StockScale) -> dict[str, Any]:
    """What a row starts with: from, step and to where the settings are evenly spaced."""
    settings = [Decimal(text) for text in scale.settings]
    values = {"name": scale.name, "kind": scale.kind, "unit": scale.unit}
    values["only_for"] = scale.exercise.name if scale.exercise else ""
    steps = {after - before for before, after in pairwise(settings)}
    if len(settings) > 2 and len(steps) == 1:
        return values | {"lightest": settings[0], "step": steps.pop(), "heaviest": settings[-1]}
    return values | {"each": "; ".join(scale.settings)}
