"""What the lists of squads and athletes and a squad's page show."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any, Final

from django.core.paginator import Page, Paginator
from django.shortcuts import get_object_or_404
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from coachhub.base.actor import READERS, Actor
from coachhub.base.clock import today
from coachhub.desk.pages.guardians import missing_words
from coachhub.people import queries
from coachhub.people.access import sees_emergency
from coachhub.people.models import Athlete, AvailabilityStatus, Membership, Squad

PAGED_AT: Final = 50
STATE_CLASS: Final = {
    AvailabilityStatus.FULL: "fine",
    AvailabilityStatus.MODIFIED: "care",
    AvailabilityStatus.OUT: "stop",
}


@dataclass(frozen=True, slots=True)
class State:
    """An availability as a framed word."""

    words: str
    css: str

    @classmethod
    def of(cls, code: str) -> State:
        status = AvailabilityStatus(code)
        return cls(str(status.label), STATE_CLASS[status])

    @classmethod
    def on(cls, row: Any, actor: Actor) -> State:
        """`row` has `status` and `is_unsettled`. Full is no plain word while something waits to be cleared."""
        if not row.is_unsettled or row.status != AvailabilityStatus.FULL:
            return cls.of(row.status)
        words = _("full, not settled") if actor.sees_health else _("full, not settled: ask the coach")
        return cls(words, STATE_CLASS[AvailabilityStatus.MODIFIED])


def age_words(athlete: Athlete, day: date) -> str:
    """ "14, under 18": being a minor is said, never left to be worked out."""
    age = athlete.age_on(day)
    if athlete.is_minor_on(day):
        return _("%(age)d, under 18") % {"age": age}
    return str(age)


@dataclass(frozen=True, slots=True)
class PersonLine:
    """An athlete in a list; `age` for those who read training, `missing` for those who must act in an emergency."""

    pk: int
    name: str
    age: str
    state: State
    missing: tuple[str, ...]
    squads: str = ""
    membership_pk: int = 0

    @classmethod
    def of_member(cls, membership: Any, squad: Squad, actor: Actor) -> PersonLine:
        athlete = membership.athlete
        missing = missing_of(athlete, membership.has_guardian, [squad], actor)
        state, age = State.on(membership, actor), age_of(athlete, actor)
        return cls(athlete.pk, athlete.name, age, state, missing, membership_pk=membership.pk)

    @classmethod
    def of_athlete(cls, row: Any, actor: Actor) -> PersonLine:
        squads = [membership.squad for membership in row.current]
        missing = missing_of(row, row.has_guardian, squads, actor)
        names = ", ".join(squad.name for squad in squads)
        return cls(row.pk, row.name, age_of(row, actor), State.on(row, actor), missing, names)


def age_of(athlete: Athlete, actor: Actor) -> str:
    return age_words(athlete, today()) if actor.kind in READERS else ""


def missing_of(athlete: Athlete, has_guardian: bool, squads: list[Squad], actor: Actor) -> tuple[str, ...]:
    return tuple(missing_words(athlete, has_guardian=has_guardian, squads=squads)) if sees_emergency(actor) else ()


@dataclass(frozen=True, slots=True)
class SquadLine:
    pk: int
    name: str
    note: str
    size: str
    staff: str

    @classmethod
    def of(cls, squad: Any) -> SquadLine:
        size = ngettext("%(n)d athlete", "%(n)d athletes", squad.size) % {"n": squad.size}
        return cls(squad.pk, squad.name, squad.note, size, ", ".join(person.name for person in squad.live_staff))


@dataclass(frozen=True, slots=True)
class SquadsPage:
    lines: list[SquadLine]
    may_add: bool

    @classmethod
    def of(cls, actor: Actor) -> SquadsPage:
        return cls([SquadLine.of(squad) for squad in queries.squads_with_size(actor, today())], actor.sees_all)


@dataclass(frozen=True, slots=True)
class SquadPage:
    pk: int
    name: str
    note: str
    is_paper_only: bool
    lines: list[PersonLine]
    others: list[Membership]
    may_write: bool

    @classmethod
    def of(cls, actor: Actor, squad: Squad) -> SquadPage:
        members: list[Any] = list(queries.members_on(squad, today()))
        return cls(
            pk=squad.pk,
            name=squad.name,
            note=squad.note,
            is_paper_only=squad.is_paper_only,
            lines=[PersonLine.of_member(member, squad, actor) for member in members],
            others=list(queries.other_members(squad, today())[:100]),
            may_write=actor.may_write,
        )


@dataclass(frozen=True, slots=True)
class AthletesPage:
    pager: Page[Athlete]
    lines: list[PersonLine]
    squads: list[Squad]
    squad_pk: int | None
    q: str
    may_add: bool

    @classmethod
    def of(cls, actor: Actor, q: str, squad_pk: str, number: str) -> AthletesPage:
        squads = list(queries.live_squads(actor))
        chosen = next((squad for squad in squads if str(squad.pk) == squad_pk), None)
        pager = Paginator(queries.find_athletes(actor, q, chosen, today()), PAGED_AT).get_page(number)
        return cls(
            pager=pager,
            lines=[PersonLine.of_athlete(row, actor) for row in pager.object_list],
            squads=squads,
            squad_pk=chosen.pk if chosen else None,
            q=q,
            may_add=actor.may_write,
        )

    @property
    def squad_query(self) -> str:
        """Behind an address that takes the same squad."""
        return f"?squad={self.squad_pk}" if self.squad_pk else ""

    @property
    def is_filtered(self) -> bool:
        return bool(self.q.strip()) or self.squad_pk is not None


def find_squad(actor: Actor, pk: int) -> Squad:
    """404 for a squad that this actor does not see."""
    return get_object_or_404(queries.live_squads(actor), pk=pk)
