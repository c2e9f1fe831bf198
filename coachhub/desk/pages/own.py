"""Own activation work as it stands for an athlete, or for a squad and the positions in it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any, Literal

from django.db.models import Q
from django.http import Http404
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.utils.dates import WEEKDAYS_ABBR
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from coachhub.base.actor import READERS, Actor
from coachhub.base.clock import today
from coachhub.cards.models import Assignment
from coachhub.cards.queries.own_list import Held, held_by_health, left_behind
from coachhub.cards.words import note_text
from coachhub.desk.pages.athletes import find_athlete
from coachhub.desk.pages.forms import FormPage
from coachhub.desk.pages.squads import find_squad
from coachhub.people.models import Athlete, Membership, Squad
from coachhub.plans.actions_own import Whose
from coachhub.plans.dose import sets_and_dose, show_dose
from coachhub.plans.models import OwnItem
from coachhub.plans.queries_own import listed_for, listed_for_squad, plays

Kind = Literal["athlete", "squad"]


@dataclass(frozen=True, slots=True)
class OwnRow:
    """`whose`: where it stands on another list than the page's; `held`: what stands against it today."""

    item: OwnItem
    name: str
    dose: str
    when: str
    review: str
    is_due: bool
    whose: str
    held: tuple[str, ...]
    may_change: bool


@dataclass(frozen=True, slots=True)
class OwnPage:
    kind: Kind
    pk: int
    name: str
    back_url: str
    rows: tuple[OwnRow, ...]
    behind: tuple[Assignment, ...]
    may_change: bool

    @classmethod
    def of_athlete(cls, actor: Actor, athlete: Athlete, squads: Sequence[int], *, is_whole: bool = True) -> OwnPage:
        """Their own list, then what their squads and positions have. Not whole: as a part of the athlete's page."""
        items = listed_for(athlete, squads)
        held = held_by_health([athlete], _exercises(items), today()) if actor.sees_health else {}
        told = {pk: tuple(note_text(one) for _who, notes in found for one in notes) for pk, found in held.items()}
        rows = [
            own_row(item, told.get(item.exercise_id, ()), may=actor.may_write and item.athlete_id is not None)
            for item in items
        ]
        behind = tuple(left_behind(actor, today(), Q(pk=athlete.pk))) if is_whole else ()
        return cls(
            "athlete", athlete.pk, athlete.name, url("athlete", athlete.pk), tuple(rows), behind, actor.may_write
        )

    @classmethod
    def of_squad(cls, actor: Actor, squad: Squad, *, is_whole: bool = True) -> OwnPage:
        items = listed_for_squad(squad)
        held: Held = {}
        if is_whole and actor.sees_health:
            held = held_by_health(_members(squad), _exercises(items), today())
        rows = [own_row(item, _names(held, item), may=actor.may_write, is_squads_page=True) for item in items]
        members = Q(memberships__squad=squad)
        behind = tuple(left_behind(actor, today(), members)) if is_whole else ()
        return cls("squad", squad.pk, squad.name, url("squad", squad.pk), tuple(rows), behind, actor.may_write)

    @property
    def own_url(self) -> str:
        return url(f"own_{self.kind}", self.pk)

    @property
    def add_url(self) -> str:
        return url(f"own_{self.kind}_add", self.pk)

    @property
    def save_url(self) -> str:
        return url(f"own_{self.kind}_save", self.pk)

    @property
    def behind_words(self) -> str:
        return behind_words(self.behind)


def behind_words(behind: Iterable[Assignment]) -> str:
    """Of what `left_behind` has found."""
    return renew_words(sum(getattr(one, "behind", 0) for one in behind))


def renew_words(n: int) -> str:
    """Empty where no card is left behind."""
    text = ngettext("%(n)s coming card can be renewed.", "%(n)s coming cards can be renewed.", n)
    return text % {"n": n} if n else ""


def own_row(item: OwnItem, held: tuple[str, ...], *, may: bool, is_squads_page: bool = False) -> OwnRow:
    return OwnRow(
        item=item,
        name=item.exercise.name,
        dose=show_dose(sets_and_dose(item)),
        when=when_words(item, today()),
        review=date_format(item.review_on, "j M Y") if item.review_on else "",
        is_due=item.review_on is not None and item.review_on <= today(),
        whose=item.player_position if is_squads_page else whose_words(item),
        held=held,
        may_change=may,
    )


def when_words(item: OwnItem, day: date) -> str:
    """ "Mon, Thu", "from 3 Dec": empty for every day from now on."""
    days = ", ".join(str(WEEKDAYS_ABBR[number]) for number in sorted(item.weekdays))
    begins = _("from %(day)s") % {"day": date_format(item.from_on, "j M")} if item.from_on > day else ""
    return " · ".join(text for text in (days, begins) if text)


def whose_words(item: OwnItem) -> str:
    """The squad or position that has it; empty for an athlete's own."""
    if item.athlete_id is not None:
        return ""
    squad = item.squad.name if item.squad else _("every squad")
    return f"{squad}, {item.player_position}" if item.player_position else squad


def list_words(item: OwnItem) -> str:
    """Whose list it stands on."""
    return item.athlete.name if item.athlete else whose_words(item)


def find_whose(actor: Actor, kind: Kind, pk: int) -> Whose:
    """Http404 for what this actor does not see."""
    return Whose(athlete=find_athlete(actor, pk)) if kind == "athlete" else Whose(squad=find_squad(actor, pk))


def find_item(actor: Actor, pk: int) -> OwnItem:
    """In force, and the actor may change it; else Http404."""
    rows = OwnItem.objects.editable_by(actor).standing().select_related("exercise", "athlete", "squad")
    item = get_object_or_404(rows, pk=pk)
    if item.athlete is not None and item.athlete.archived_at:
        raise Http404
    return item


def list_url(item: OwnItem) -> str:
    if item.athlete_id is not None:
        return url("own_athlete", item.athlete_id)
    return url("own_squad", item.squad_id) if item.squad_id is not None else reverse("desk:own_sets")


def item_form_page(title: str, back_url: str) -> FormPage:
    return FormPage(title, _("Save"), back_url)


def own_part(actor: Actor, athlete: Athlete, squads: Sequence[Any]) -> OwnPage | None:
    """For the athlete's page; `squads` are memberships of today. None for whoever reads no training."""
    if actor.kind not in READERS:
        return None
    return OwnPage.of_athlete(actor, athlete, [one.squad_id for one in squads], is_whole=False)


def own_squad_part(actor: Actor, squad: Squad) -> OwnPage | None:
    return OwnPage.of_squad(actor, squad, is_whole=False) if actor.kind in READERS else None


def squads_of(athlete: Athlete) -> list[int]:
    return list(Membership.objects.filter(athlete=athlete).on(today()).values_list("squad", flat=True))


def url(name: str, pk: int) -> str:
    return reverse(f"desk:{name}", kwargs={"pk": pk})


def _members(squad: Squad) -> list[Athlete]:
    return list(Athlete.objects.members_of(squad.pk, today()))


def _exercises(items: Sequence[OwnItem]) -> list[int]:
    return sorted({item.exercise_id for item in items})


def _names(held: Held, item: OwnItem) -> tuple[str, ...]:
    """Of those who do not get it as it is written."""
    names = [athlete.name for athlete, _notes in held.get(item.exercise_id, ()) if plays(item, athlete)]
    return (_("Restricted or hurting: %(names)s.") % {"names": "; ".join(names)},) if names else ()
