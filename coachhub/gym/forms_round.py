"""A round set by set: what differed, what was skipped, what is put right or taken back."""

from __future__ import annotations

from typing import Any, Final, cast
from uuid import uuid5

from django import forms
from django.http import QueryDict
from django.utils.translation import gettext_lazy as _

from coachhub.base.models import LoadUnit
from coachhub.cards.actions import EntryDraft, Tap, amount_columns
from coachhub.cards.sheet import Sheet, SheetEntry, SheetGroup, SheetLine
from coachhub.cards.words import mass_text
from coachhub.cards.words_done import amount_of
from coachhub.coaching.facts import Mass
from coachhub.coaching.slips import is_far_above
from coachhub.gym.fields import amount_field, load_field, reserve_field
from coachhub.gym.forms import is_lifted

KINDS: Final = (("done", _("Done")), ("skipped", _("Skipped")))
NOT_YET: Final = ("void", _("Not yet"))
TAKE_BACK: Final = ("void", _("Take back"))


class SlotForm(forms.Form):
    """One side of one line in the round. `was` is the entry that the page showed, so that two hands can be told apart.

    The hidden initial values say what the page showed: only what was changed here is a correction.
    """

    kind = forms.ChoiceField(label=_("This set"), widget=forms.RadioSelect, show_hidden_initial=True)
    unit = forms.ChoiceField(choices=LoadUnit.choices, widget=forms.HiddenInput)
    was = forms.UUIDField(widget=forms.HiddenInput, required=False)

    def __init__(self, data: QueryDict | None, *, sheet: Sheet, line: SheetLine, side: str, number: int) -> None:
        self.line, self.side, self.number, self.is_minor = line, side, number, sheet.is_minor
        self.asks_again = False
        self.entry = entry_of(line, side, number)
        unit = line.unit_for(sheet.athlete_unit)
        super().__init__(data, prefix=f"{line.key}-{side}", initial=initial_of(line, self.entry, number, unit))
        cast(forms.ChoiceField, self.fields["kind"]).choices = [*KINDS, TAKE_BACK if self.entry else NOT_YET]
        self.fields |= self._figures(unit, is_rir_taught=sheet.is_rir_taught)

    def _figures(self, unit: str, *, is_rir_taught: bool) -> dict[str, forms.Field]:
        shown: dict[str, Any] = {"show_hidden_initial": True}
        fields: dict[str, forms.Field] = {"amount": amount_field(self.line.dose_kind, **shown)}
        if self.line.load_meaning != "none":
            fields["load"] = load_field(unit, **shown)
            fields["sure"] = forms.BooleanField(label=_("Yes, that is right"), required=False)
        if is_rir_taught and is_lifted(self.line):
            fields["rir"] = reserve_field()
            fields["rir"].show_hidden_initial = True
        if self.side != "right":
            attrs = {"autocomplete": "off"}
            fields["note"] = forms.CharField(
                label=_("Note"), max_length=300, required=False, widget=forms.TextInput(attrs=attrs), **shown
            )
        return fields

    def clean(self) -> dict[str, Any]:
        data = self.cleaned_data
        if data.get("kind") == "done" and data.get("amount") is None and "amount" not in self.errors:
            self.add_error("amount", _("Write how many, or choose “Skipped”."))
        if data.get("kind") == "done" and data.get("load") and not data.get("sure"):
            self._ask_again(Mass(data["load"], data["unit"]))
        return data

    def _ask_again(self, load: Mass) -> None:
        """A slipped digit is asked about once; whoever says that it is right is believed."""
        known = heaviest_known(self.line)
        kg = known.kg if known else None
        if self.line.load_meaning == "assistance" or not is_far_above(load.kg, kg, is_new=self.is_minor):
            return
        self.asks_again = True
        told = {"load": mass_text(load), "known": mass_text(known) if known else ""}
        if known:
            text = _("%(load)s? Until now it was %(known)s. If it is right, say so below and send again.")
        else:
            text = _("%(load)s? If it is right, say so below and send again.")
        self.add_error("load", text % told)

    @property
    def initial_kind(self) -> str:
        """The hidden field that says which of the three the page had chosen."""
        return self["kind"].as_hidden(only_initial=True)

    def draft(self, tap: Tap) -> EntryDraft | None:
        """Return what this side adds to the card; None where nothing was changed, or nothing done yet."""
        data, was = self.cleaned_data, self.cleaned_data["was"]
        if data["kind"] == "void" and was is None:
            return None
        if was is not None and not set(self.changed_data) - {"was", "unit"}:
            return None
        return EntryDraft(
            uuid=uuid5(tap.uuid, f"{self.line.key}:{self.number}:{self.side}"),
            line_key=self.line.key,
            line_pk=self.line.pk,
            round=self.number,
            client_at=tap.client_at,
            seq=tap.seq,
            side=self.side,
            kind=data["kind"],
            supersedes_uuid=was,
            note=data.get("note", self.entry.fact.note if self.entry else ""),
            **(self._figures_done() if data["kind"] == "done" else {}),
        )

    def _figures_done(self) -> dict[str, Any]:
        data, load = self.cleaned_data, self.cleaned_data.get("load")
        return {
            "load": None if load is None else Mass(load, data["unit"]),
            "rir_half": data.get("rir", self.entry.fact.rir_half if self.entry else None),
            **amount_columns(self.line.dose_kind, data["amount"]),
        }


def entry_of(line: SheetLine, side: str, number: int) -> SheetEntry | None:
    cell = line.cell(number)
    found = (entry for entry in cell.entries if entry.fact.side == side) if cell else iter(())
    return next(found, None)


def initial_of(line: SheetLine, entry: SheetEntry | None, number: int, unit: str) -> dict[str, Any]:
    """What was written; else what is planned, or was taken in the round before."""
    if entry is None:
        load = line.load.value if line.load else load_before(line, number)
        return {"kind": "done", "amount": line.low, "load": load, "unit": unit}
    fact = entry.fact
    return {
        "kind": fact.kind,
        "amount": amount_of(entry),
        "load": fact.load_value,
        "unit": fact.load_unit or unit,
        "rir": fact.rir_half,
        "note": fact.note,
        "was": fact.uuid,
    }


def heaviest_known(line: SheetLine) -> Mass | None:
    """Planned, taken last time, or written on this card already."""
    facts = [entry.fact for cell in line.cells for entry in cell.entries if entry.is_done]
    written = [Mass(fact.load_value, cast(Any, fact.load_unit)) for fact in facts if fact.load_value]
    known = [line.load, line.load_high, line.last.load if line.last else None, *written]
    return max((mass for mass in known if mass), key=lambda mass: mass.kg, default=None)


def load_before(line: SheetLine, number: int) -> Any:
    """The load really taken in the latest round before this one."""
    cells = [cell for n in range(number - 1, 0, -1) if (cell := line.cell(n))]
    facts = [entry.fact for cell in cells for entry in cell.entries if entry.is_done and entry.fact.load_value]
    return facts[0].load_value if facts else None


class RoundForm:
    """Every line of one round, each side a form of its own."""

    def __init__(self, data: QueryDict | None, *, sheet: Sheet, group: SheetGroup, number: int) -> None:
        self.number = number
        self.lines: list[tuple[SheetLine, list[SlotForm]]] = []
        for line in group.written_or_planned(number):
            slots = [SlotForm(data, sheet=sheet, line=line, side=s, number=number) for s in sides_of(line, number)]
            self.lines.append((line, slots))

    @property
    def slots(self) -> list[SlotForm]:
        return [slot for _line, slots in self.lines for slot in slots]

    def is_valid(self) -> bool:
        # A list, not a generator: every field's error is shown at once.
        return all([slot.is_valid() for slot in self.slots])  # noqa: C419

    def drafts(self, tap: Tap) -> list[EntryDraft]:
        return [draft for slot in self.slots if (draft := slot.draft(tap))]


def sides_of(line: SheetLine, number: int) -> tuple[str, ...]:
    """Sides to write; a set that was written for both sides at once is put right as such.

    Each side under the exercise that it was done with: a swap between left and right parts them.
    """
    if entry_of(line, "both", number):
        return ("both",)
    cell = line.cell(number)
    return tuple(side for side in line.sides if cell is None or side not in cell.before)
