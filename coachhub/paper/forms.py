"""What is printed, for whom, on which paper."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, cast

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from coachhub.base.actor import Actor
from coachhub.cards.sheet import Sheet
from coachhub.paper.kinds import Kind, kinds_for
from coachhub.paper.sheets import minors
from coachhub.paper.sizes import A5, SIZES, Size

_WRONG = {"invalid_choice": gettext_lazy("Choose from the list.")}


class SizeForm(forms.Form):
    """Which paper; without a word of it, A5."""

    size = forms.ChoiceField(label=gettext_lazy("Paper"), required=False, error_messages=_WRONG)

    def __init__(self, data: Mapping[str, Any] | None, *, initial: dict[str, Any]) -> None:
        super().__init__(data, initial=initial)
        cast(forms.ChoiceField, self.fields["size"]).choices = [(size.code, size.label) for size in SIZES.values()]

    @property
    def chosen_size(self) -> Size:
        return SIZES.get(self.cleaned_data["size"], A5)


class PrintForm(SizeForm):
    """Some of the cards; those of athletes who are absent are left out unless ticked."""

    kind = forms.ChoiceField(
        label=gettext_lazy("What"), required=False, widget=forms.RadioSelect, error_messages=_WRONG
    )
    card = forms.TypedMultipleChoiceField(
        label=gettext_lazy("Cards"),
        coerce=int,
        widget=forms.CheckboxSelectMultiple,
        error_messages={"required": gettext_lazy("Tick at least one card."), **_WRONG},
    )

    def __init__(
        self, data: Mapping[str, Any] | None, *, sheets: Sequence[Sheet], actor: Actor, initial: dict[str, Any]
    ) -> None:
        present = [sheet.card_id for sheet in sheets if not sheet.is_absent]
        super().__init__(data, initial={"card": present, "kind": Kind.CARDS.value, **initial})
        self.sheets = sheets
        cast(forms.TypedMultipleChoiceField, self.fields["card"]).choices = [
            (sheet.card_id, sheet.athlete_name) for sheet in sheets
        ]
        cast(forms.ChoiceField, self.fields["kind"]).choices = kinds_for(actor)

    def clean(self) -> dict[str, Any]:
        if self.chosen_kind is Kind.GUARDIANS and "card" in self.cleaned_data and not minors(self.chosen):
            self.add_error("card", _("None of those ticked is under 18."))
        return self.cleaned_data

    @property
    def chosen_kind(self) -> Kind:
        return Kind(self.cleaned_data.get("kind") or Kind.CARDS)

    @property
    def chosen(self) -> list[Sheet]:
        return [sheet for sheet in self.sheets if sheet.card_id in self.cleaned_data["card"]]

    @property
    def ticked(self) -> frozenset[int]:
        """The keys to tick on the page: as sent, else as proposed."""
        return frozenset(int(value) for value in self["card"].value() or () if str(value).isdecimal())
