"""Write what a reviewed roster asks for: all of it in one transaction, or nothing."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from django.db import transaction

from coachhub.base.actor import Actor
from coachhub.base.changes import count_states, digest, to_write
from coachhub.base.clock import today
from coachhub.people.actions.drafts import check_unchanged, take_draft
from coachhub.people.audit import record
from coachhub.people.models import Athlete, Club, Guardian, Guardianship, ImportKind, Membership
from coachhub.people.roster.changes import RosterWish, review_roster
from coachhub.people.roster.guardians import GuardianStep
from coachhub.people.roster.known import share_keys

_BATCH = 500
Step = tuple[Athlete, GuardianStep]


@transaction.atomic
def import_roster(*, actor: Actor, draft_pk: int, seen: str) -> dict[str, int]:
    """Write the rows that were looked at (`seen` is their digest), without those in error; how many by state.

    ValidationError "gone" or "changed": then nothing is written.
    """
    table, reading = take_draft(actor, ImportKind.ROSTER, draft_pk)
    outcomes = review_roster(actor, table, reading)
    check_unchanged(seen, digest(outcomes))
    wishes = to_write(outcomes)
    athletes = _write_athletes(wishes)
    _write_memberships(wishes, athletes)
    _write_guardians([(a, step) for a, wish in zip(athletes, wishes, strict=True) for step in wish.guardians])
    for athlete, wish in zip(athletes, wishes, strict=True):
        record(actor, "edited" if wish.pk else "added", athlete)
    return count_states(outcomes)


def _write_athletes(wishes: Sequence[RosterWish]) -> list[Athlete]:
    """In the order of the wishes. New ones read loads in the club's unit unless the row says otherwise."""
    club = Club.objects.first() or Club()
    stored = Athlete.objects.in_bulk([wish.pk for wish in wishes if wish.pk])
    athletes = [stored[wish.pk] if wish.pk else Athlete(unit=club.unit) for wish in wishes]
    for athlete, wish in zip(athletes, wishes, strict=True):
        for name, value in wish.values:
            setattr(athlete, name, value)
        athlete.renew_key()
    Athlete.objects.bulk_create([row for row in athletes if row.pk is None], batch_size=_BATCH)
    names = sorted({name for wish in wishes if wish.pk for name, _value in wish.values})
    if names:
        Athlete.objects.bulk_update(stored.values(), [*names, "search_key"], batch_size=_BATCH)
    return athletes


def _write_memberships(wishes: Sequence[RosterWish], athletes: Sequence[Athlete]) -> None:
    rows = [
        Membership(athlete=athlete, squad_id=squad, started_on=today())
        for athlete, wish in zip(athletes, wishes, strict=True)
        for squad in wish.squads
    ]
    Membership.objects.bulk_create(rows, batch_size=_BATCH)


def _write_guardians(steps: Sequence[Step]) -> None:
    stored = Guardian.objects.in_bulk([step.pk for _athlete, step in steps if step.pk])
    for _athlete, step in steps:
        if step.pk:
            stored[step.pk].phone, stored[step.pk].email = step.phone, step.email
    Guardian.objects.bulk_update(stored.values(), ["phone", "email"], batch_size=_BATCH)
    guardians = _with_new(steps, stored)
    fresh = {id(row): row for row in guardians if row.pk is None}
    Guardian.objects.bulk_create(fresh.values(), batch_size=_BATCH)
    _write_links([(athlete, step, row) for (athlete, step), row in zip(steps, guardians, strict=True)])


def _with_new(steps: Iterable[Step], stored: dict[int, Guardian]) -> list[Guardian]:
    """A guardian for each step. One whom several rows name with the same e-mail or phone is one person."""
    guardians: list[Guardian] = []
    met: dict[tuple[str, str], Guardian] = {}
    for _athlete, step in steps:
        keys = share_keys(step)
        guardian = stored[step.pk] if step.pk else next((met[key] for key in keys if key in met), None)
        if guardian is None:
            guardian = Guardian(name=step.name)
            guardian.renew_key()
        guardian.phone, guardian.email = guardian.phone or step.phone, guardian.email or step.email
        met.update(dict.fromkeys(keys, guardian))
        guardians.append(guardian)
    return guardians


def _write_links(links: Iterable[tuple[Athlete, GuardianStep, Guardian]]) -> None:
    links = list(links)
    has = {(guardian.pk, athlete.pk) for athlete, step, guardian in links if step.link}
    new = {
        (guardian.pk, athlete.pk): Guardianship(guardian=guardian, athlete=athlete, relation=step.relation)
        for athlete, step, guardian in links
        if step.link is None and (guardian.pk, athlete.pk) not in has
    }
    Guardianship.objects.bulk_create(new.values(), batch_size=_BATCH)
    kept = Guardianship.objects.in_bulk([step.link for _athlete, step, _guardian in links if step.link])
    for _athlete, step, _guardian in links:
        if step.link:
            kept[step.link].relation = step.relation
    Guardianship.objects.bulk_update(kept.values(), ["relation"], batch_size=_BATCH)
