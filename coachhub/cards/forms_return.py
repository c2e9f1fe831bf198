"""The form of a step on the way back. It checks; the verb in `actions` writes."""

from __future__ import annotations

from typing import Any, cast

from django import forms
from django.utils.text import capfirst
from django.utils.translation import gettext_lazy as _

from coachhub.cards.words_health import stage_text
from coachhub.coaching.easing import STAGES


class ReturnForm(forms.Form):
    """Nothing is chosen beforehand. "Back in full" is offered to those on the way back, and may be sent twice."""

    stage = forms.TypedChoiceField(label=_("From today"), coerce=int, widget=forms.RadioSelect)
    on_word_of = forms.CharField(
        label=_("On whose word"), max_length=120, help_text=_("Doctor, physiotherapist, coach: their name.")
    )

    def __init__(self, data: Any = None, *, is_coming_back: bool) -> None:
        super().__init__(data)
        stages = [*sorted(STAGES), *([0] if is_coming_back or data is not None else [])]
        cast(Any, self.fields["stage"]).choices = [(stage, capfirst(stage_text(stage))) for stage in stages]
