"""Forms on guardians and consent. They check; the verbs in `actions` write."""

from __future__ import annotations

from datetime import date
from typing import Any, Final, cast

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.base.text import fold
from coachhub.people.forms import day_input
from coachhub.people.models import Athlete, Consent, ConsentKind, Guardian, Guardianship
from coachhub.people.queries_care import could_look_after

# The shortest number that reaches anybody.
FEWEST_DIGITS: Final = 3
_NEW: Final = ("name", "phone", "email")


class GuardianForm(forms.ModelForm):  # type: ignore[type-arg]  # generic for the type checker only
    relation = forms.CharField(
        label=_("Relation"), max_length=40, required=False, help_text=_("Mother, father, foster carer, grandparent …")
    )

    class Meta:
        model = Guardian
        fields = ["name", "phone", "email"]
        widgets = {"phone": forms.TextInput(attrs={"type": "tel"})}

    def __init__(self, *args: Any, link: Guardianship | None = None, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if link is not None:
            self.initial["relation"] = link.relation

    def clean_phone(self) -> str:
        phone = str(self.cleaned_data["phone"]).strip()
        if phone and sum(c.isdigit() for c in phone) < FEWEST_DIGITS:
            raise ValidationError(_("A phone number has digits."))
        return phone


class KnownGuardianField(forms.ModelChoiceField):  # type: ignore[type-arg]
    """Two people of one name are told apart by their children, as far as the actor sees them."""

    def label_from_instance(self, obj: Any) -> str:
        children = ", ".join(link.athlete.name for link in obj.seen_links)
        return f"{obj.name} ({children})"


class NewGuardianForm(GuardianForm):
    """Someone already noted for a brother or sister, or someone new: one of the two."""

    known = KnownGuardianField(
        label=_("Noted already for a brother or sister"),
        queryset=Guardian.objects.none(),
        required=False,
        empty_label=_("nobody: a new guardian"),
    )
    field_order = ["known", "name", "relation", "phone", "email"]

    def __init__(self, *args: Any, actor: Actor, athlete: Athlete, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.athlete = athlete
        cast(Any, self.fields["known"]).queryset = could_look_after(actor, athlete)
        cast(Any, self.fields["known"]).initial = None
        self.fields["name"].required = False
        self.fields["name"].label = _("Name of somebody new")

    def clean(self) -> dict[str, Any]:
        data = super().clean() or self.cleaned_data
        name, known = data.get("name"), data.get("known")
        if known is None and not name and not {"name", "known"} & set(self.errors):
            self.add_error("name", _("Who looks after this athlete?"))
        if known is not None and any(data.get(field) for field in _NEW):
            self.add_error("known", _("Choose somebody noted already, or type somebody new: not both."))
        if name and fold(name) in {fold(link.guardian.name) for link in self._links()}:
            self.add_error("name", _("A guardian of this name is noted already."))
        return data

    def _post_clean(self) -> None:
        """What is typed belongs to nobody yet; the verb checks the row that it makes."""

    def _links(self) -> Any:
        return self.athlete.guardianships.select_related("guardian")


class ConsentForm(forms.ModelForm):  # type: ignore[type-arg]
    given_on = forms.DateField(label=_("On"), widget=day_input(), initial=today)

    class Meta:
        model = Consent
        fields = ["kind", "given_by", "given_on"]
        help_texts = {"given_by": _("The guardian for under-18s, else the athlete. As it stands on the paper.")}

    def __init__(self, *args: Any, athlete: Athlete, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.athlete = athlete
        cast(Any, self.fields["kind"]).choices = [("", _("choose")), *ConsentKind.choices]

    def clean_given_on(self) -> date:
        return not_to_come(self.cleaned_data["given_on"])

    def clean_kind(self) -> str:
        kind: str = self.cleaned_data["kind"]
        if self.athlete.consents.filter(kind=kind, withdrawn_on=None).exists():
            raise ValidationError(_("This consent is on file already."))
        return kind


class WithdrawForm(forms.Form):
    withdrawn_by = forms.CharField(label=_("Withdrawn by"), max_length=120)
    withdrawn_on = forms.DateField(label=_("On"), widget=day_input(), initial=today)

    def __init__(self, data: Any = None, *, consent: Consent) -> None:
        super().__init__(data)
        self.consent = consent

    def clean_withdrawn_on(self) -> date:
        withdrawn_on = not_to_come(self.cleaned_data["withdrawn_on"])
        if withdrawn_on < self.consent.given_on:
            raise ValidationError(_("This is before it was given."))
        return withdrawn_on


def not_to_come(day: date) -> date:
    if day > today():
        raise ValidationError(_("This day has not come yet."))
    return day
