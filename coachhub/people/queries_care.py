"""Who looks after an athlete, and what they agreed to."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from datetime import date
from typing import Any

from django.db.models import Exists, OuterRef, Prefetch, QuerySet

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.people.models import (
    Athlete,
    Consent,
    ConsentKind,
    Guardian,
    GuardianQuerySet,
    Guardianship,
    Membership,
    Squad,
)


def has_guardian(athlete: str) -> Exists:
    """For an annotation; `athlete` is the path to the athlete's key."""
    return Exists(Guardianship.objects.filter(athlete=OuterRef(athlete), guardian__archived_at=None))


def standing_consents(path: str) -> Prefetch[Any, Any, Any]:
    """To be fetched beside athletes, who then have `standing_consents`; `path` leads to their consents."""
    return Prefetch(path, Consent.objects.filter(withdrawn_on=None), to_attr="standing_consents")


def guardians_of(athlete: Athlete) -> QuerySet[Guardianship]:
    """With the guardian, in the order of names."""
    rows = athlete.guardianships.filter(guardian__archived_at=None).select_related("guardian", "athlete")
    return rows.order_by("guardian__search_key", "pk")


def guardians_with_children(actor: Actor) -> GuardianQuerySet:
    """Each with `seen_links`: the children whom the actor sees."""
    mine = Athlete.objects.visible_to(actor).live()
    links = Guardianship.objects.filter(athlete__in=mine).select_related("athlete")
    seen = Prefetch("guardianships", links.order_by("athlete__search_key", "pk"), to_attr="seen_links")
    return Guardian.objects.visible_to(actor).prefetch_related(seen)


def could_look_after(actor: Actor, athlete: Athlete) -> GuardianQuerySet:
    """Guardians of athletes whom the actor sees, without this athlete's own."""
    own = Guardianship.objects.filter(athlete=athlete).values("guardian")
    return guardians_with_children(actor).exclude(pk__in=own)


def is_on_paper_only(squads: Iterable[Squad]) -> bool:
    """In squads, and each of them on paper: nobody who is in no squad, or in one with phones."""
    ways = [squad.is_paper_only for squad in squads]
    return bool(ways) and all(ways)


def squads_on(athlete: Athlete, day: date) -> list[Squad]:
    """Live squads of that day, whoever may see them."""
    rows = Membership.objects.on(day).filter(athlete=athlete, squad__archived_at=None).select_related("squad")
    return [row.squad for row in rows]


def consents_wanted(squads: Iterable[Squad]) -> list[ConsentKind]:
    """Of which kinds consent should be on file: for an own phone only where phones are used."""
    without_phone = is_on_paper_only(squads)
    return [kind for kind in ConsentKind if kind != ConsentKind.PHONE or not without_phone]


def consents_missing(standing: Iterable[Consent], squads: Iterable[Squad]) -> list[ConsentKind]:
    on_file: Collection[str] = {row.kind for row in standing}
    return [kind for kind in consents_wanted(squads) if kind not in on_file]


def signer_of(athlete: Athlete) -> str:
    """Who would sign: an adult athlete, or the guardian of a minor who has just one; else left to be typed."""
    if not athlete.is_minor_on(today()):
        return athlete.name
    names = [link.guardian.name for link in guardians_of(athlete)]
    return names[0] if len(names) == 1 else ""
