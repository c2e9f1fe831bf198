"""Forms of plans, sessions, parts and blocks. The form of a line: `forms_line`."""

from __future__ import annotations

from typing import Any, cast

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from coachhub.base.actor import Actor
from coachhub.base.fields import WholeNumberField
from coachhub.base.models import SegmentKind
from coachhub.coaching.rounds import Rounds
from coachhub.people.models import Squad
from coachhub.plans.fields import RestField, RestRangeField, RoundsField
from coachhub.plans.models import CircuitGroup, Plan, Session, SessionRole, SessionVariant
from coachhub.plans.tree import SessionTree


def squads_of(actor: Actor) -> Any:
    return Squad.objects.visible_to(actor).filter(archived_at=None)


class PlanFilter(forms.Form):
    """What is not known filters nothing."""

    q = forms.CharField(
        label=_("Search by name"),
        required=False,
        max_length=80,
        widget=forms.TextInput(attrs={"type": "search", "autocomplete": "off"}),
    )
    squad = forms.ModelChoiceField(
        label=_("Squad"), required=False, empty_label=_("all"), queryset=Squad.objects.none()
    )

    def __init__(self, data: Any, *, actor: Actor) -> None:
        super().__init__(data)
        cast(Any, self.fields["squad"]).queryset = squads_of(actor)


class PlanForm(forms.Form):
    name = forms.CharField(label=_("Name"), max_length=80)
    squad = forms.ModelChoiceField(
        label=_("Squad"),
        required=False,
        empty_label=_("no squad: every coach can use it"),
        queryset=Squad.objects.none(),
    )
    weeks = WholeNumberField(
        label=_("Weeks"),
        least=1,
        most=52,
        initial=4,
        widget=forms.NumberInput(attrs={"class": "short"}),
    )
    note = forms.CharField(label=_("Note"), max_length=300, required=False)

    def __init__(self, data: Any = None, *, actor: Actor, plan: Plan | None = None) -> None:
        self.plan = plan
        initial = {"name": plan.name, "squad": plan.squad_id, "weeks": plan.weeks, "note": plan.note} if plan else None
        super().__init__(data, initial=initial)
        cast(Any, self.fields["squad"]).queryset = squads_of(actor)

    def clean_weeks(self) -> int:
        weeks: int = self.cleaned_data["weeks"]
        longest = self.plan.sessions.live().order_by("-week_to").first() if self.plan else None
        if longest and longest.week_to > weeks:
            raise ValidationError(
                _("“%(name)s” runs to week %(week)s: shorten or remove it first."),
                params={"name": longest.name, "week": longest.week_to},
            )
        return weeks


class SessionForm(forms.Form):
    name = forms.CharField(label=_("Name"), max_length=80)
    day = WholeNumberField(
        label=_("Day"), least=1, most=14, initial=1, help_text=_("First, second … training day of the week.")
    )
    week_from = WholeNumberField(label=_("From week"), least=1, most=52, initial=1)
    week_to = WholeNumberField(label=_("To week"), least=1, most=52)
    slot_minutes = WholeNumberField(label=_("Minutes of the slot"), least=10, most=300, initial=60)
    role = forms.ChoiceField(
        label=_("What it is for"),
        choices=SessionRole.choices,
        initial=SessionRole.ANY,
        required=False,
        help_text=_("Says on which day around a match it is put when the plan is fitted to the season."),
    )
    variant = forms.ChoiceField(label=_("In which weeks"), choices=SessionVariant.choices, required=False)
    note = forms.CharField(label=_("Note"), max_length=300, required=False)

    def __init__(self, data: Any = None, *, plan: Plan, session: Session | None = None) -> None:
        self.plan = plan
        initial: dict[str, Any] = {"week_to": plan.weeks}
        if session:
            initial = {name: getattr(session, name) for name in self.base_fields}
        super().__init__(data, initial=initial)

    def clean_role(self) -> str:
        return self.cleaned_data["role"] or SessionRole.ANY

    def clean(self) -> dict[str, Any]:
        check_weeks(self, self.plan)
        return self.cleaned_data


def check_weeks(form: forms.Form, plan: Plan) -> None:
    low, high = form.cleaned_data.get("week_from"), form.cleaned_data.get("week_to")
    if low and high and high < low:
        form.add_error("week_to", _("The last week comes before the first."))
    elif high and high > plan.weeks:
        form.add_error(
            "week_to", ValidationError(_("The plan has weeks 1 to %(weeks)s."), params={"weeks": plan.weeks})
        )


class PlanChoice(forms.ModelChoiceField):  # type: ignore[type-arg]  # generic for the type checker only
    def label_from_instance(self, obj: Any) -> str:
        return f"{obj.name} · {obj.squad.name if obj.squad else _('every squad')}"


class CopySessionForm(forms.Form):
    """Into which plan, and where in it."""

    plan = PlanChoice(label=_("Into the plan"), queryset=Plan.objects.none())
    name = forms.CharField(label=_("Name"), max_length=80)
    day = WholeNumberField(label=_("Day"), least=1, most=14)
    week_from = WholeNumberField(label=_("From week"), least=1, most=52)
    week_to = WholeNumberField(label=_("To week"), least=1, most=52)

    def __init__(self, data: Any = None, *, actor: Actor, session: Session) -> None:
        names = ("plan", "name", "day", "week_from", "week_to")
        super().__init__(data, initial={name: getattr(session, name) for name in names})
        plans = Plan.objects.editable_by(actor).select_related("squad").order_by("search_key", "pk")
        cast(Any, self.fields["plan"]).queryset = plans

    def clean(self) -> dict[str, Any]:
        plan = self.cleaned_data.get("plan")
        if plan:
            check_weeks(self, plan)
        return self.cleaned_data


class CopyPlanForm(forms.Form):
    squad = forms.ModelChoiceField(
        label=_("For the squad"),
        required=False,
        empty_label=_("no squad: every coach can use it"),
        queryset=Squad.objects.none(),
    )
    name = forms.CharField(label=_("Name"), max_length=80)

    def __init__(self, data: Any = None, *, actor: Actor, plan: Plan) -> None:
        super().__init__(data, initial={"name": plan.name})
        cast(Any, self.fields["squad"]).queryset = squads_of(actor)


class SegmentForm(forms.Form):
    """Named codes come back as `SegmentKind`."""

    kind = forms.TypedChoiceField(label=_("Part"), choices=SegmentKind.choices, coerce=SegmentKind)
    minutes = WholeNumberField(
        label=_("Minutes"),
        least=1,
        most=300,
        required=False,
        widget=forms.NumberInput(attrs={"class": "short"}),
        help_text=_("Only where you give it a fixed time."),
    )


class GroupForm(forms.Form):
    rounds = RoundsField(label=_("Rounds"), help_text=_("3 or 3-4"), widget=forms.TextInput(attrs={"autofocus": True}))
    rest = RestRangeField(label=_("Rest between rounds"), most_s=1800, help_text=_("2:00, 2:00-2:30 or seconds"))
    rest_note = forms.CharField(
        label=_("Heart-rate note"), max_length=80, required=False, help_text=_("such as: or until under 120 a minute")
    )
    rest_after_s = RestField(label=_("Rest after the block"), most_s=1800)
    intent = forms.CharField(
        label=_("Intent"), max_length=120, required=False, help_text=_("such as: strength + power, steady")
    )
    is_optional = forms.BooleanField(label=_("Optional block"), required=False)

    def __init__(self, data: Any = None, *, group: CircuitGroup) -> None:
        super().__init__(data, initial=initial_of_group(group))

    def clean(self) -> dict[str, Any]:
        """Rest as the two columns that the block has."""
        low, high = self.cleaned_data.pop("rest", (None, None))
        return {**self.cleaned_data, "rest_min_s": low, "rest_max_s": high}


def initial_of_group(group: CircuitGroup) -> dict[str, Any]:
    return {
        "rounds": Rounds(group.rounds_min, group.rounds_max),
        "rest": (group.rest_min_s, group.rest_max_s),
        "rest_note": group.rest_note,
        "rest_after_s": group.rest_after_s,
        "intent": group.intent,
        "is_optional": group.is_optional,
    }


class PlaceForm(forms.Form):
    """Where a line was dragged to: a block of this session, as its row, and the place in it from 0."""

    group = forms.TypedChoiceField(coerce=int)
    place = forms.IntegerField(min_value=0, max_value=100)

    def __init__(self, data: Any = None, *, tree: SessionTree) -> None:
        self.rows = {block.row.pk: block.row for block in tree.blocks}
        super().__init__(data)
        cast(Any, self.fields["group"]).choices = [(pk, pk) for pk in self.rows]

    def clean_group(self) -> CircuitGroup:
        return self.rows[self.cleaned_data["group"]]
