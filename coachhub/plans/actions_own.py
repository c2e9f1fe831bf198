"""Verbs on own activation work and its saved sets. Nothing is deleted: an item ends, a set is put away."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Any, Final

from django.core.exceptions import PermissionDenied
from django.db import transaction
from django.utils.translation import gettext as _

from coachhub.base.actor import Actor
from coachhub.base.clock import now
from coachhub.coaching.notation import Dose
from coachhub.people.actions.once import save_once
from coachhub.people.models import Athlete, Squad
from coachhub.plans.actions import Step, differs
from coachhub.plans.dose import columns_of
from coachhub.plans.models import OwnItem, OwnSet, OwnSetItem

_DOSE: Final = (*columns_of(Dose(kind="reps", low=1)), "exercise_id", "sets", "goal")


class OnListError(ValueError):
    """The exercise is on this list already."""


@dataclass(frozen=True, slots=True)
class Whose:
    """One athlete; or a squad, or whoever plays that position in it."""

    athlete: Athlete | None = None
    squad: Squad | None = None
    player_position: str = ""

    @property
    def columns(self) -> dict[str, Any]:
        return {"athlete": self.athlete, "squad": self.squad, "player_position": self.player_position}

    def playing(self, position: str) -> Whose:
        return replace(self, player_position=position)

    @classmethod
    def of(cls, item: OwnItem) -> Whose:
        return cls(item.athlete, item.squad, item.player_position)

    def lock(self) -> None:
        """Two changes of one list come one after the other."""
        if self.athlete is not None:
            Athlete.objects.select_for_update().get(pk=self.athlete.pk)
        elif self.squad is not None:
            Squad.objects.select_for_update().get(pk=self.squad.pk)


@transaction.atomic
def add_item(
    *,
    actor: Actor,
    whose: Whose,
    dose: Dose,
    from_on: date,
    review_on: date | None,
    weekdays: Sequence[int] = (),
    **values: Any,
) -> OwnItem:
    """The least important of its list; `values`: exercise, sets, goal. OnListError where the exercise stands there."""
    _require(actor, whose)
    whose.lock()
    listed = list(OwnItem.objects.standing().filter(**whose.columns))
    if any(row.exercise_id == values["exercise"].pk for row in listed):
        raise OnListError
    row = OwnItem(
        **whose.columns,
        **columns_of(dose),
        **values,
        position=_last(whose) + 1,
        from_on=from_on,
        review_on=review_on,
        weekdays=list(weekdays),
        added_by_id=actor.user_id,
        added_at=now(),
    )
    row.save()
    return row


@transaction.atomic
def edit_item(*, actor: Actor, item: OwnItem, dose: Dose, **values: Any) -> bool:
    """Write it anew: exercise, sets, goal, from_on, review_on, weekdays. False where nothing is new."""
    _require_item(actor, item)
    Whose.of(item).lock()
    same = OwnItem.objects.standing().filter(**Whose.of(item).columns, exercise=values["exercise"])
    if same.exclude(pk=item.pk).exists():
        raise OnListError
    is_changed = differs(row=item, values={**columns_of(dose), **values})
    if is_changed:
        item.save()
    return is_changed


@transaction.atomic
def end_item(*, actor: Actor, item: OwnItem) -> bool:
    """It joins no card made from now on; False where it had ended."""
    _require_item(actor, item)
    standing = OwnItem.objects.standing().filter(pk=item.pk)
    return bool(standing.update(ended_at=now(), ended_by_id=actor.user_id))


@transaction.atomic
def keep_item(*, actor: Actor, item: OwnItem, review_on: date | None) -> None:
    """The question was asked, and the answer is that it stays; looked at again on that day."""
    _require_item(actor, item)
    item.review_on = review_on
    item.save(update_fields=["review_on"])


@transaction.atomic
def move_item(*, actor: Actor, item: OwnItem, step: Step) -> bool:
    """One place up (-1) or down (1) in its list, the most important first; False at the edge."""
    _require_item(actor, item)
    Whose.of(item).lock()
    rows = _listed(item)
    place = rows.index(item)
    if not 0 <= place + step < len(rows):
        return False
    rows[place], rows[place + step] = rows[place + step], rows[place]
    _number(rows)
    return True


@transaction.atomic
def save_as_set(*, actor: Actor, name: str, items: Iterable[OwnItem]) -> OwnSet:
    """A copy of these items under a name; each exercise once. ValidationError where the name is taken."""
    if not actor.may_write:
        raise PermissionDenied
    own_set = OwnSet(name=name, created_by_id=actor.user_id)
    save_once(row=own_set, told=_("There is a set of this name."))
    first = {item.exercise_id: item for item in reversed(list(items))}
    OwnSetItem.objects.bulk_create(
        OwnSetItem(own_set=own_set, position=place, **_columns(item))
        for place, item in enumerate(reversed(list(first.values())))
    )
    return own_set


@transaction.atomic
def give_set(
    *, actor: Actor, own_set: OwnSet, whose: Sequence[Whose], from_on: date, review_on: date | None
) -> list[OwnItem]:
    """Put the set's items at the end of each list and return the new ones; what stands there already stays."""
    given: list[OwnItem] = []
    for one in whose:
        _require(actor, one)
        one.lock()
        there = set(OwnItem.objects.standing().filter(**one.columns).values_list("exercise", flat=True))
        new = [item for item in own_set.items.all() if item.exercise_id not in there]
        for place, item in enumerate(new, _last(one) + 1):
            row = OwnItem(**one.columns, **_columns(item), position=place, from_on=from_on, review_on=review_on)
            row.from_set, row.added_by_id, row.added_at = own_set, actor.user_id, now()
            given.append(row)
    return OwnItem.objects.bulk_create(given)


@transaction.atomic
def archive_set(*, actor: Actor, own_set: OwnSet) -> None:
    """Put it away; what was given from it stays."""
    if not actor.may_write:
        raise PermissionDenied
    own_set.archived_at = now()
    own_set.save(update_fields=["archived_at"])


def _require(actor: Actor, whose: Whose) -> None:
    may = actor.may_write
    if whose.athlete is not None:
        may = may and Athlete.objects.visible_to(actor).filter(pk=whose.athlete.pk).exists()
    elif whose.squad is not None:
        may = may and (actor.sees_all or whose.squad.pk in actor.squad_ids)
    else:
        may = actor.sees_all
    if not may:
        raise PermissionDenied


def _require_item(actor: Actor, item: OwnItem) -> None:
    if not OwnItem.objects.editable_by(actor).filter(pk=item.pk).exists():
        raise PermissionDenied


def _listed(item: OwnItem) -> list[OwnItem]:
    """The list that it stands on: an athlete's, or a squad's with those of its positions."""
    rows = OwnItem.objects.standing().filter(athlete=item.athlete_id, squad=item.squad_id)
    return list(rows.select_for_update())


def _last(whose: Whose) -> int:
    rows = OwnItem.objects.standing().filter(athlete=whose.athlete, squad=whose.squad)
    return max(rows.values_list("position", flat=True), default=-1)


def _number(rows: Sequence[OwnItem]) -> None:
    for position, row in enumerate(rows):
        if row.position != position:
            row.position = position
            row.save(update_fields=["position"])


def _columns(item: OwnItem | OwnSetItem) -> dict[str, Any]:
    """Exercise, dose, sets and goal, as another row takes them."""
    return {name: getattr(item, name) for name in _DOSE}
