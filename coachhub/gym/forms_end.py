"""A session's end, as the phone sends it."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from django import forms
from django.http import QueryDict
from django.utils.translation import gettext_lazy as _

from coachhub.insight.models import EffortLoad, SessionNote


class EndForm(forms.Form):
    """Without the note for whoever may not read it."""

    uuid = forms.UUIDField(widget=forms.HiddenInput)
    effort = forms.TypedChoiceField(
        label=_("How hard was it, all in all?"),
        choices=[(n, str(n)) for n in range(11)],
        coerce=int,
        widget=forms.RadioSelect,
        error_messages={"required": _("Choose a number.")},
    )
    minutes = forms.IntegerField(
        label=_("How many minutes, from warm-up to end?"),
        min_value=1,
        max_value=600,
        widget=forms.TextInput(
            attrs={"inputmode": "numeric", "autocomplete": "off", "class": "short", "maxlength": "3"}
        ),
        error_messages={
            "required": _("Write how many minutes."),
            "invalid": _("Write a whole number."),
            "min_value": _("At least one minute."),
            "max_value": _("That cannot be; %(limit_value)s minutes at most."),
        },
    )
    note = forms.CharField(
        label=_("Note to the coach"),
        max_length=500,
        required=False,
        widget=forms.Textarea(attrs={"rows": "3"}),
    )

    def __init__(
        self,
        data: QueryDict | None,
        *,
        answer: EffortLoad | None,
        note: SessionNote | None,
        minutes: int | None,
        has_note: bool,
    ) -> None:
        effort = answer.effort if answer else None
        initial = {
            "effort": effort,
            "minutes": answer.minutes if answer else minutes,
            "note": note.text if note else "",
        }
        super().__init__(data, initial=initial)
        if not has_note:
            del self.fields["note"]

    def values(self) -> dict[str, Any]:
        """As `end_session` takes them."""
        data = self.cleaned_data
        uuid: UUID = data["uuid"]
        return {"uuid": uuid, "effort": data["effort"], "minutes": data["minutes"], "note": data.get("note")}
