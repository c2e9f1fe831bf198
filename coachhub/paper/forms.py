"""Who gets a sheet of paper."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, cast

from django import forms
from django.utils.translation import gettext_lazy as _

from coachhub.cards.sheet import Sheet


class ChosenForm(forms.Form):
    """Some of the cards; those of athletes who are absent are left out unless ticked."""

    card = forms.TypedMultipleChoiceField(
        label=_("Cards"),
        coerce=int,
        widget=forms.CheckboxSelectMultiple,
        error_messages={"required": _("Tick at least one card."), "invalid_choice": _("Choose from the list.")},
    )

    def __init__(self, data: Mapping[str, Any] | None, sheets: Sequence[Sheet]) -> None:
        super().__init__(data, initial={"card": [sheet.card_id for sheet in sheets if not sheet.is_absent]})
        field = cast(forms.TypedMultipleChoiceField, self.fields["card"])
        field.choices = [(sheet.card_id, sheet.athlete_name) for sheet in sheets]

    @property
    def ticked(self) -> frozenset[int]:
        """The keys to tick on the page: as sent, else as proposed."""
        return frozenset(int(value) for value in self["card"].value() or () if str(value).isdecimal())
