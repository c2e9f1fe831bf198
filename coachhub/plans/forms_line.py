"""The form of one line of a block: exercise, dose in notation or in plain fields, and what goes with it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final, cast

from django import forms
from django.utils.translation import gettext as _g
from django.utils.translation import gettext_lazy as _

from coachhub.base.fields import WholeNumberField
from coachhub.base.models import MassUnit
from coachhub.coaching.notation import Dose, format_dose
from coachhub.library.models import Direction, Exercise, Swap
from coachhub.plans.dose import dose_of
from coachhub.plans.dose_entry import DOSE_FIELDS, DoseEntryError, entry_of, read_entry
from coachhub.plans.fields import OrderedField, RestField
from coachhub.plans.models import DoseKind, LoadRule, Per
from coachhub.plans.queries import exercises_named, swap_options
from coachhub.plans.reading import Reading, read_dose, sets_misfit
from coachhub.plans.tree import Block, Line

LINE: Final = "line"
FIELDS: Final = "fields"
AMOUNT_FIELDS: Final = DOSE_FIELDS[: DOSE_FIELDS.index("load_rule")]
LOAD_FIELDS: Final = DOSE_FIELDS[len(AMOUNT_FIELDS) :]
_DETAILS: Final = ("ramp_up_sets", "rest_after_s", "cue", "pair", "directions", "by_level", "swaps", "more_swap")
_UNTYPED: Final[Mapping[str, str]] = {"dose_kind": DoseKind.REPS, "load_rule": LoadRule.NONE, "hands": "1"}


def figure(label: Any, **kwargs: Any) -> forms.CharField:
    widget = forms.TextInput(attrs={"inputmode": "decimal", "class": "short", "autocomplete": "off"})
    return forms.CharField(label=label, required=False, max_length=12, widget=widget, **kwargs)


class LineForm(forms.Form):
    """`how` says which of the two shapes of the dose is on the page; the other one's fields are left out."""

    how = forms.CharField(required=False, widget=forms.HiddenInput)
    exercise = forms.CharField(
        label=_("Exercise"), max_length=60, widget=forms.TextInput(attrs={"autocomplete": "off", "spellcheck": "false"})
    )
    notation = forms.CharField(
        label=_("Dose"),
        max_length=240,
        strip=False,
        widget=forms.TextInput(
            attrs={
                "autocomplete": "off",
                "autocapitalize": "off",
                "spellcheck": "false",
                "aria-describedby": "dose-reading",
                "placeholder": "3 x 8 @ 2 RIR",
            }
        ),
    )
    sets = figure(_("Sets"))
    low = figure(_("Amount"))
    high = figure(_("to"))
    dose_kind = forms.ChoiceField(label=_("Counted in"), choices=DoseKind.choices)
    per = forms.ChoiceField(label=_("For"), choices=Per.choices, required=False)
    load_rule = forms.ChoiceField(label=_("Load rule"), choices=LoadRule.choices)
    load = figure(_("Load"))
    load_high = figure(_("Load, to"))
    load_unit = forms.ChoiceField(label=_("Unit"), choices=MassUnit.choices)
    hands = forms.ChoiceField(label=_("The load is"), choices=[("1", _("the one weight")), ("2", _("in each hand"))])
    percent = figure(_("% of known best"))
    percent_high = figure(_("%, to"))
    rir = figure(_("Reps in reserve (RIR)"))
    words = forms.CharField(label=_("In words"), max_length=120, required=False)
    ceiling = figure(_("At most (ceiling)"))
    tempo = figure(_("Tempo"), help_text=_("lowering, pause, lifting, pause: 3110"))
    ramp_up_sets = WholeNumberField(
        label=_("Ramp-up sets"),
        least=0,
        most=6,
        required=False,
        widget=forms.NumberInput(attrs={"class": "short"}),
        help_text=_("lighter sets before the first hard one"),
    )
    rest_after_s = RestField(
        label=_("Rest after it"), most_s=900, help_text=_("empty: straight into the next; else 0:30 or seconds")
    )
    cue = forms.CharField(label=_("Cue"), max_length=120, required=False)
    pair = forms.ChoiceField(label=_("Pairs with"), required=False, help_text=_("as a jump with its heavy lift"))
    swaps = forms.MultipleChoiceField(label=_("Allowed swaps"), required=False, widget=forms.CheckboxSelectMultiple)
    by_level = forms.BooleanField(label=_("Each athlete's own level"), required=False)
    more_swap = forms.CharField(
        label=_("Another swap"), max_length=60, required=False, widget=forms.TextInput(attrs={"autocomplete": "off"})
    )

    def __init__(
        self, data: Any = None, *, block: Block, line: Line | None = None, initial: Mapping[str, Any] | None = None
    ) -> None:
        self.block, self.line = block, line
        self.reading: Reading | None = None
        start = {**initial_of(line, is_only_line=self.is_only_line), **(initial or {})}
        super().__init__(data, initial=start)
        self.shape = FIELDS if (data if data is not None else start).get("how") == FIELDS else LINE
        for name in ["notation"] if self.shape == FIELDS else DOSE_FIELDS:
            del self.fields[name]
        self._offer(str((data if data is not None else start).get("exercise", "")))

    @property
    def segment(self) -> str:
        """The part of the session that is being written."""
        return str(self.block.row.segment.kind)

    @property
    def is_only_line(self) -> bool:
        own = self.line.row.pk if self.line else None
        return all(line.row.pk == own for line in self.block.lines)

    def _offer(self, named: str) -> None:
        """Swaps, directions and partners that this exercise and this block give to choose from."""
        found = exercises_named(named, segment=self.segment) if named else []
        self.chosen: Exercise | None = found[0] if len(found) == 1 else None
        self.found = found
        offered = swap_choices(self.chosen, self.line)
        _choices(self.fields["swaps"], list(offered.items()))
        if not offered:
            del self.fields["swaps"]
        directions = self.chosen.directions if self.chosen else []
        if len(directions) > 1:
            choices = [(code, Direction(code).label) for code in directions]
            self.fields["directions"] = OrderedField(label=_("Directions, in order"), choices=choices)
        if not (self.chosen and self.chosen.family):
            del self.fields["by_level"]
        others = [one for one in self.block.lines if not self.line or one.row.pk != self.line.row.pk]
        _choices(self.fields["pair"], [("", "–"), *((str(one.row.pk), _title(one)) for one in others)])
        if not others:
            del self.fields["pair"]

    def focus(self) -> None:
        """Where the keyboard goes on: the first field that is wrong, else the first that is empty, else the dose."""
        dose = "low" if self.shape == FIELDS else "notation"
        wrong = next((name for name in self.fields if name in self.errors), None)
        name = wrong or (dose if self["exercise"].value() else "exercise")
        self.fields[name].widget.attrs["autofocus"] = True

    @property
    def entry_amount(self) -> list[forms.BoundField]:
        return [self[name] for name in AMOUNT_FIELDS]

    @property
    def entry_load(self) -> list[forms.BoundField]:
        return [self[name] for name in LOAD_FIELDS]

    @property
    def is_detailed(self) -> bool:
        """Whether anything stands, or is wrong, in the fields that are folded away at first."""
        names = [name for name in _DETAILS if name in self.fields]
        values = (value if isinstance(value := self[name].value(), list) else [value] for name in names)
        return any(self.errors.get(name) for name in names) or any(map(any, values))

    @property
    def shown_reading(self) -> Reading | None:
        """What the line that stands in the field comes to; None while it is empty or not on the page."""
        if self.is_bound or self.shape == FIELDS:
            return self.reading
        text = self["notation"].value() or ""
        return read_dose(text, self.block, is_only_line=self.is_only_line) if text else None

    def clean_exercise(self) -> Exercise:
        if self.chosen:
            return self.chosen
        raise forms.ValidationError(which_exercise(self.found), code="unclear")

    def clean_more_swap(self) -> Exercise | None:
        named = self.cleaned_data["more_swap"]
        found = exercises_named(named, segment=self.segment) if named else []
        if named and len(found) != 1:
            raise forms.ValidationError(which_exercise(found), code="unclear")
        return found[0] if found else None

    def clean(self) -> dict[str, Any]:
        self.dose = self._read_entry() if self.shape == FIELDS else self._read_notation()
        return self.cleaned_data

    def _read_notation(self) -> Dose | None:
        if "notation" not in self.cleaned_data:
            return None
        text = self.cleaned_data["notation"]
        self.reading = read_dose(text, self.block, is_only_line=self.is_only_line)
        if self.reading.dose is None:
            self.add_error("notation", self.reading.message)
        return self.reading.dose

    def _read_entry(self) -> Dose | None:
        if any(name in self.errors for name in DOSE_FIELDS):
            return None
        try:
            dose = read_entry(self.cleaned_data)
        except DoseEntryError as error:
            self.add_error(error.field, error.message)
            return None
        if message := sets_misfit(dose, self.block, is_only_line=self.is_only_line):
            self.add_error("sets", message)
            return None
        return dose

    @property
    def values(self) -> dict[str, Any]:
        """What `add_prescription` and `edit_prescription` take."""
        data = self.cleaned_data
        exercise = data["exercise"]
        picked = [*(int(pk) for pk in data.get("swaps", ())), *([data["more_swap"].pk] if data["more_swap"] else [])]
        swaps = Exercise.objects.in_bulk([pk for pk in picked if pk != exercise.pk])
        pair = next((one.row for one in self.block.lines if str(one.row.pk) == data.get("pair")), None)
        return {
            "exercise": exercise,
            "dose": self.dose,
            "ramp_up_sets": data["ramp_up_sets"] or 0,
            "rest_after_s": data["rest_after_s"] or 0,
            "cue": data["cue"],
            "directions": data.get("directions") or [],
            "swaps": [swaps[pk] for pk in dict.fromkeys(picked) if pk in swaps],
            "pair": pair,
            "by_level": data.get("by_level", False),
        }


def initial_of(line: Line | None, *, is_only_line: bool) -> dict[str, Any]:
    """Alone in its block a line is shown with its sets, so that they can be changed there."""
    if line is None:
        return {"how": LINE, **_UNTYPED}
    row = line.row
    dose = dose_of(row, row.group.rounds_min, row.group.rounds_max) if is_only_line else line.written
    return {
        "how": LINE,
        "exercise": line.exercise.name,
        "notation": format_dose(dose),
        **entry_of(dose),
        "ramp_up_sets": row.ramp_up_sets or None,
        "rest_after_s": row.rest_after_s or None,
        "cue": row.cue,
        "directions": row.directions,
        "swaps": [str(one.pk) for one in line.swaps],
        "pair": str(row.pair_with_id or ""),
        "by_level": row.is_by_level,
    }


def swap_choices(exercise: Exercise | None, line: Line | None) -> dict[str, str]:
    """The library's swaps with their reasons first, then what the coach had allowed besides."""
    offered = swap_options(exercise) if exercise else {}
    choices = {
        str(pk): f"{swaps[0].to.name} ({', '.join(swap_reason(swap) for swap in swaps)})"
        for pk, swaps in offered.items()
    }
    if line and exercise and exercise.pk == line.exercise.pk:
        choices = {**choices, **{str(one.pk): one.name for one in line.swaps if str(one.pk) not in choices}}
    return choices


def swap_reason(swap: Swap) -> str:
    reason = str(swap.get_reason_display())
    return f"{reason}: {swap.get_region_display()}" if swap.region else reason


def which_exercise(found: list[Exercise]) -> str:
    if not found:
        return _g("No exercise of this name is in the library.")
    names = ", ".join(exercise.name for exercise in found[:5])
    return _g("Which one? Write one of these names in full: %(names)s.") % {"names": names}


def in_other_shape(data: Any, how: str, *, block: Block, line: Line | None) -> LineForm:
    """All that was typed, with the dose in the other shape; bound with its error where it cannot be read yet."""
    form = LineForm(data, block=block, line=line)
    typed = {name: field.widget.value_from_datadict(data, {}, name) for name, field in form.fields.items()}
    if form.shape == FIELDS and typed["low"]:
        form.is_valid()
        typed["notation"] = format_dose(form.dose) if form.dose else ""
    elif form.shape == LINE and typed["notation"].strip():
        form.is_valid()
        typed |= entry_of(form.dose) if form.dose else {}
    else:
        return LineForm(block=block, line=line, initial={**typed, "how": how})
    return LineForm(block=block, line=line, initial={**typed, "how": how}) if form.dose else form


def _title(line: Line) -> str:
    return f"{line.label} {line.exercise.name}"


def _choices(field: forms.Field, choices: list[tuple[str, Any]]) -> None:
    cast(Any, field).choices = choices
