"""Rows of an exercise's form: equipment, cues, swaps; and the whole form, saved at once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final, cast

from django import forms
from django.utils.translation import gettext_lazy as _

from coachhub.base.models import Region
from coachhub.base.text import fold
from coachhub.library.content import Content, SwapContent, content_of
from coachhub.library.fields import CodesField
from coachhub.library.forms_exercise import ExerciseForm, RegionsForm, main_values
from coachhub.library.models import Direction, Equipment, Exercise, SwapReason
from coachhub.library.queries import exercise_names, exercises_called, family_names

if TYPE_CHECKING:
    BaseRows = forms.BaseFormSet[forms.Form]
else:
    BaseRows = forms.BaseFormSet

BLANK_ROWS: Final = 2
MORE_ROWS: Final = 3
MOST_ROWS: Final = 40
MOST_KINDS: Final = 5


class CueRow(forms.Form):
    text = forms.CharField(label=_("Cue"), max_length=80, required=False)
    direction = forms.ChoiceField(
        label=_("Direction"), choices=[("", _("every direction")), *Direction.choices], required=False
    )


class NeedRow(forms.Form):
    kinds = CodesField(
        label=_("Any one of"), choices=Equipment.choices, most=MOST_KINDS, more=_("or …"), required=False
    )


class SwapRow(forms.Form):
    to = forms.CharField(
        label=_("Exercise"),
        max_length=60,
        required=False,
        widget=forms.TextInput(attrs={"list": "exercise-names", "autocomplete": "off"}),
    )
    reason = forms.ChoiceField(label=_("Reason"), choices=[("", _("reason …")), *SwapReason.choices], required=False)
    region = forms.ChoiceField(
        label=_("Region it spares"), choices=[("", _("spares …")), *Region.choices], required=False
    )

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        if not data.get("to"):
            return data
        if not data.get("reason"):
            self.add_error("reason", _("Why this one? Pick a reason."))
        elif (data["reason"] == SwapReason.SPARES) != bool(data.get("region")):
            self.add_error("region", _("A region goes with “spares a body region”, and with no other reason."))
        return data


class Rows(BaseRows):
    """Rows whose `key` is blank are not kept."""

    key: str = ""

    @property
    def kept(self) -> list[dict[str, Any]]:
        return [form.cleaned_data for form in self.forms if form.cleaned_data.get(self.key)]


class NeedRows(Rows):
    key = "kinds"


class CueRows(Rows):
    key = "text"


class SwapRows(Rows):
    """Finds the exercises by the names that were typed; the same swap twice is said beside the second."""

    key = "to"
    own_ref: str = ""

    def clean(self) -> None:
        sent = [form for form in self.forms if form.is_valid() and form.cleaned_data.get("to")]
        found = exercises_called(form.cleaned_data["to"] for form in sent)
        seen: set[SwapContent] = set()
        for form in sent:
            other = found.get(fold(form.cleaned_data["to"]))
            if other is None:
                form.add_error("to", _("No exercise has this name."))
            elif other.ref == self.own_ref:
                form.add_error("to", _("An exercise cannot be swapped for itself."))
            else:
                form.cleaned_data["swap"] = swap = _swap(other, form.cleaned_data)
                if swap in seen:
                    form.add_error("to", _("This swap is there twice."))
                seen.add(swap)


def _swap(other: Exercise, data: Mapping[str, str]) -> SwapContent:
    return SwapContent(other.ref, data["reason"], data["region"])


def _rows(form: type[forms.Form], formset: type[Rows], extra: int) -> type[Rows]:
    made = forms.formset_factory(
        form, formset=formset, extra=extra, max_num=MOST_ROWS, absolute_max=MOST_ROWS, validate_max=True
    )
    return cast(type[Rows], made)


KINDS_OF_ROWS: Final[dict[str, tuple[type[forms.Form], type[Rows]]]] = {
    "equipment": (NeedRow, NeedRows),
    "cues": (CueRow, CueRows),
    "swaps": (SwapRow, SwapRows),
}


@dataclass(frozen=True, slots=True)
class ExerciseForms:
    """One exercise on one page. `more` names the rows that were just made longer."""

    main: ExerciseForm
    regions: RegionsForm
    rows: dict[str, Rows]
    names: list[str]
    families: list[str]
    more: str = ""

    @classmethod
    def of(cls, own: Exercise | None) -> ExerciseForms:
        """As the exercise is now; blank without one."""
        if own is None:
            return cls._unbound(None, {}, {"is_reviewed": False}, {}, extra=BLANK_ROWS)
        content = content_of(own)
        names = {swap.to.ref: swap.to.name for swap in own.swaps.all()}
        starts: dict[str, list[dict[str, Any]]] = {
            "equipment": [{"kinds": kinds} for kinds in content.equipment],
            "cues": [{"direction": direction, "text": text} for direction, text in content.cues],
            "swaps": [{"to": names[s.to], "reason": s.reason, "region": s.region} for s in content.swaps],
        }
        regions = dict(content.regions) | {"is_reviewed": own.is_regions_reviewed}
        return cls._unbound(own, main_values(content), regions, starts, extra=BLANK_ROWS)

    @classmethod
    def sent(cls, own: Exercise | None, data: Mapping[str, Any]) -> ExerciseForms:
        """As it was sent: to be checked, or, where only more rows are wanted, shown again and not judged."""
        rows = {name: _rows(*kind, extra=0)(data, prefix=name) for name, kind in KINDS_OF_ROWS.items()}
        cast(SwapRows, rows["swaps"]).own_ref = own.ref if own else ""
        bound = cls(
            ExerciseForm(data, own=own), RegionsForm(data, prefix="load"), rows, exercise_names(), family_names()
        )
        more = data.get("more", "")
        if more not in KINDS_OF_ROWS:
            return bound
        starts = {name: [_typed(form) for form in formset] for name, formset in bound.rows.items()}
        return cls._unbound(own, _typed(bound.main), _typed(bound.regions), starts, more=more)

    @classmethod
    def _unbound(
        cls,
        own: Exercise | None,
        main: dict[str, Any],
        regions: dict[str, Any],
        starts: Mapping[str, list[dict[str, Any]]],
        *,
        extra: int = 0,
        more: str = "",
    ) -> ExerciseForms:
        rows = {
            name: _rows(*kind, extra=MORE_ROWS if name == more else extra)(initial=starts.get(name), prefix=name)
            for name, kind in KINDS_OF_ROWS.items()
        }
        main_form, regions_form = ExerciseForm(initial=main, own=own), RegionsForm(initial=regions, prefix="load")
        return cls(main_form, regions_form, rows, exercise_names(), family_names(), more)

    def is_valid(self) -> bool:
        rows_fit = all(rows.is_valid() for rows in self.rows.values())
        return self.main.is_valid() and self.regions.is_valid() and rows_fit and self._cues_fit()

    @property
    def has_errors(self) -> bool:
        return self.main.is_bound and not self.is_valid()

    @property
    def is_reviewed(self) -> bool:
        return bool(self.regions.cleaned_data["is_reviewed"])

    def content(self) -> Content:
        main, rows = self.main.cleaned_data, self.rows
        return Content(
            **main | {"demands": frozenset(main["demands"])},
            equipment=tuple(row["kinds"] for row in rows["equipment"].kept),
            cues=tuple((row["direction"], row["text"]) for row in rows["cues"].kept),
            swaps=tuple(row["swap"] for row in rows["swaps"].kept),
            regions=self.regions.loaded,
        )

    def _cues_fit(self) -> bool:
        """Whether every cue is for a direction that the exercise has."""
        directions = ("", *self.main.cleaned_data["directions"])
        wrong = [form for form in self.rows["cues"] if form.cleaned_data.get("direction", "") not in directions]
        for form in wrong:
            form.add_error("direction", _("The exercise does not have this direction; add it above."))
        return not wrong


def _typed(form: forms.BaseForm) -> dict[str, Any]:
    """What was typed, not judged."""
    return {name: form[name].data for name in form.fields}
