"""What the club knows already, as far as the actor sees it: loaded once for all rows, in the same number of queries."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Protocol

from django.db.models import Q

from coachhub.base.actor import Actor
from coachhub.base.tables.table import tidy
from coachhub.base.text import fold
from coachhub.people.models import Athlete, Club, Guardianship, Membership
from coachhub.people.queries import live_squads

PersonKey = tuple[str, date]


@dataclass(frozen=True, slots=True)
class GuardianFact:
    """A guardian of one athlete; `link` is the row that says so."""

    pk: int
    link: int
    name: str
    phone: str
    email: str
    relation: str


class HasAddress(Protocol):
    @property
    def name(self) -> str: ...
    @property
    def phone(self) -> str: ...
    @property
    def email(self) -> str: ...


@dataclass(frozen=True)
class Known:
    """`members`: by athlete, the squads that they are in today or join later. `hidden`: people of squads not seen."""

    athletes: dict[int, Athlete]
    by_person: dict[PersonKey, list[int]]
    hidden: frozenset[PersonKey]
    squads: dict[int, str]
    squad_by_name: dict[str, int]
    members: dict[int, frozenset[int]]
    guardians: dict[int, list[GuardianFact]]
    guardian_by_key: dict[tuple[str, str], GuardianFact]
    unit: str
    needs_squad: bool

    def squad_called(self, name: str) -> int | None:
        """By its very name first: two may differ in an accent only."""
        return self.squad_by_name.get(tidy(name), self.squad_by_name.get(fold(name)))


def person_key(given_name: str, family_name: str, born_on: date) -> PersonKey:
    return fold(f"{given_name} {family_name}"), born_on


def key_of(athlete: Athlete) -> PersonKey:
    return person_key(athlete.given_name, athlete.family_name, athlete.born_on)


def load_known(actor: Actor, day: date) -> Known:
    athletes = {row.pk: row for row in Athlete.objects.visible_to(actor).live()}
    by_person: dict[PersonKey, list[int]] = defaultdict(list)
    for row in athletes.values():
        by_person[key_of(row)].append(row.pk)
    everyone = Athlete.objects.live().values_list("pk", "given_name", "family_name", "born_on")
    squads = {row.pk: row.name for row in live_squads(actor)}
    guardians = guardians_of(athletes)
    club = Club.objects.first() or Club()
    return Known(
        athletes=athletes,
        by_person=dict(by_person),
        hidden=frozenset(person_key(given, family, born) for pk, given, family, born in everyone if pk not in athletes),
        squads=squads,
        squad_by_name={fold(name): pk for pk, name in squads.items()} | {tidy(name): pk for pk, name in squads.items()},
        members=members_of(athletes, squads, day),
        guardians=guardians,
        guardian_by_key={key: fact for facts in guardians.values() for fact in facts for key in share_keys(fact)},
        unit=club.unit,
        needs_squad=not actor.sees_all,
    )


def members_of(athletes: Iterable[int], squads: Iterable[int], day: date) -> dict[int, frozenset[int]]:
    rows = Membership.objects.filter(Q(ended_on=None) | Q(ended_on__gte=day), squad__in=list(squads))
    found: dict[int, set[int]] = defaultdict(set)
    for athlete, squad in rows.values_list("athlete", "squad"):
        found[athlete].add(squad)
    return {pk: frozenset(found[pk]) for pk in athletes}


def guardians_of(athletes: dict[int, Athlete]) -> dict[int, list[GuardianFact]]:
    """In the order in which they were noted; only of athletes that the actor sees."""
    rows = Guardianship.objects.filter(guardian__archived_at=None).select_related("guardian").order_by("pk")
    found: dict[int, list[GuardianFact]] = defaultdict(list)
    for row in rows:
        if row.athlete_id in athletes:
            who = row.guardian
            fact = GuardianFact(who.pk, row.pk, who.name, who.phone, who.email, row.relation)
            found[row.athlete_id].append(fact)
    return dict(found)


def share_keys(guardian: HasAddress) -> list[tuple[str, str]]:
    """Two guardians with one of these in common are one person: brothers and sisters share them."""
    digits = "".join(c for c in guardian.phone if c.isdigit())
    return [(fold(guardian.name), token) for token in (guardian.email.casefold(), digits) if token]
