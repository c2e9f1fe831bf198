"""What a phone sends: one tap on the card, or a report of something that hurts. A round set by set: `forms_round`."""

from __future__ import annotations

from typing import Any, Final

from django import forms
from django.http import QueryDict
from django.utils.translation import gettext_lazy as _

from coachhub.base.clock import now
from coachhub.base.models import BodySide, Region
from coachhub.cards.actions import Tap
from coachhub.cards.queries.taps import Part
from coachhub.cards.sheet import Sheet, SheetGroup, SheetLine
from coachhub.coaching.facts import Mass
from coachhub.gym.fields import load_field, reserve_field
from coachhub.people.models import RedFlagKind

# What the column holds; a figure made up to spoil the order ends here.
MOST_SEQ: Final = 2_000_000_000


class SendForm(forms.Form):
    """What every sending carries; script puts a new uuid in at each submit."""

    uuid = forms.UUIDField()
    seq = forms.IntegerField(min_value=1)
    revision = forms.IntegerField(min_value=1)
    at = forms.SlugField(required=False)

    def tap(self, number: int = 1, **told: Any) -> Tap:
        return Tap(self.cleaned_data["uuid"], number, min(self.cleaned_data["seq"], MOST_SEQ), now(), **told)


class TapForm(SendForm):
    """ "As planned": of a round, of one line in it, or (no round) of every round of some blocks."""

    round = forms.IntegerField(min_value=1, max_value=40, required=False)
    line = forms.SlugField(required=False)

    def __init__(self, data: QueryDict, *, part: Part | None) -> None:
        super().__init__(data)
        self.part = part
        self.groups = part.groups if part else ()
        self.lines = [line for group in self.groups for line in group.lines if data.get("line", "") in ("", line.key)]
        for line in self.lines:
            self.fields[f"load_{line.key}"] = load_field(self._unit(line))
            self.fields[f"rir_{line.key}"] = reserve_field()

    def _unit(self, line: SheetLine) -> Any:
        return line.unit_for(self.part.athlete_unit if self.part else "")

    def clean(self) -> dict[str, Any]:
        if not self.groups:
            raise forms.ValidationError(_("This part is no longer on the card. Nothing was written."))
        for line in self.lines:
            if self._asks_for_load(line) and self.cleaned_data.get(f"load_{line.key}", 0) is None:
                self.add_error(f"load_{line.key}", _("How much was it? 0 if you took no weight."))
        return self.cleaned_data

    def _asks_for_load(self, line: SheetLine) -> bool:
        """A set in a lettered block whose load was to be found: without it nobody knows where to start next time."""
        number = self.cleaned_data.get("round")
        cell = line.cell(number) if number else None
        return line.wants_load and line.label[:1].isalpha() and cell is not None and cell.is_open

    @property
    def number(self) -> int | None:
        number: int | None = self.cleaned_data["round"]
        return number

    @property
    def places(self) -> list[tuple[str, int]]:
        if self.number:
            return [(self.groups[0].key, self.number)]
        return [(group.key, number) for group in self.groups for number in range(1, group.rounds_max + 1)]

    def as_tap(self) -> Tap:
        typed = self.cleaned_data
        loads = {
            line.key: Mass(load, self._unit(line))
            for line in self.lines
            if line.takes_load and (load := typed[f"load_{line.key}"]) is not None
        }
        reserves = {line.key: rir for line in self.lines if (rir := typed[f"rir_{line.key}"]) is not None}
        return self.tap(self.number or 1, loads=loads, reserves=reserves)


def is_lifted(line: SheetLine) -> bool:
    """Reps against a load, or with a reserve asked for: not a jump, a hold or a carry."""
    return line.dose_kind == "reps" and (line.load_rule != "none" or line.rir_half is not None)


def asks_reserve(sheet: Sheet, group: SheetGroup, line: SheetLine, number: int) -> bool:
    """On the last round asked for (and any extra one), of a lifted line, of somebody who has been taught it."""
    return sheet.is_rir_taught and is_lifted(line) and number >= min(line.sets, group.rounds_min)


class PainForm(forms.Form):
    SIDES = (
        (BodySide.LEFT, _("left")),
        (BodySide.RIGHT, _("right")),
        (BodySide.BOTH, _("both, or the middle")),
    )
    KINDS = (("hurts", _("It hurts")), ("sore", _("Muscle sore only, from earlier training")))

    uuid = forms.UUIDField(widget=forms.HiddenInput)
    kind = forms.ChoiceField(label=_("What is it?"), choices=KINDS, initial="hurts", widget=forms.RadioSelect)
    score = forms.TypedChoiceField(
        label=_("How much, from 0 to 10?"),
        choices=[(n, str(n)) for n in range(11)],
        coerce=int,
        widget=forms.RadioSelect,
        error_messages={"required": _("Choose a number.")},
    )
    region = forms.ChoiceField(
        label=_("Where?"),
        choices=[("", _("Choose")), *Region.choices],
        error_messages={"required": _("Choose where.")},
    )
    side = forms.ChoiceField(
        label=_("Which side?"),
        choices=SIDES,
        widget=forms.RadioSelect,
        error_messages={"required": _("Choose a side.")},
    )
    note = forms.CharField(
        label=_("What happened, in your words"),
        max_length=300,
        required=False,
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
    )

    def values(self) -> dict[str, Any]:
        told = dict(self.cleaned_data)
        return told | {"is_sore_only": told.pop("kind") == "sore"}


class RedFlagForm(forms.Form):
    uuid = forms.UUIDField(widget=forms.HiddenInput)
    kind = forms.ChoiceField(label=_("What happened?"), choices=RedFlagKind.choices)
