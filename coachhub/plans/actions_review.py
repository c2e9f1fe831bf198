"""Verbs on the checks: accept a finding with a word, take that back, set a rule."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from django.core.exceptions import PermissionDenied
from django.db import transaction

from coachhub.base.actor import Actor, ActorKind
from coachhub.base.clock import now
from coachhub.coaching.review import RULES
from coachhub.people.models import Athlete, Squad
from coachhub.plans.models import FindingAcceptance, Plan, ReviewSetting, Session


@dataclass(frozen=True, slots=True)
class About:
    """What a finding is about: exactly one of session, week of a plan, squad or athlete."""

    session: Session | None = None
    plan: Plan | None = None
    week: int | None = None
    squad: Squad | None = None
    athlete: Athlete | None = None


def require_about(actor: Actor, about: About) -> None:
    """Whoever may change what it is about may accept what is remarked on it."""
    if not actor.may_write or not _may_change(actor, about):
        raise PermissionDenied


def _may_change(actor: Actor, about: About) -> bool:
    if about.session is not None:
        return Session.objects.editable_by(actor).filter(pk=about.session.pk).exists()
    if about.plan is not None:
        return Plan.objects.editable_by(actor).filter(pk=about.plan.pk).exists()
    if about.squad is not None:
        return Squad.objects.visible_to(actor).filter(pk=about.squad.pk, archived_at=None).exists()
    return about.athlete is not None and Athlete.objects.visible_to(actor).live().filter(pk=about.athlete.pk).exists()


@transaction.atomic
def accept_finding(*, actor: Actor, about: About, key: str, word: str) -> None:
    """It stays quiet from now on. Accepting it again changes nothing."""
    require_about(actor, about)
    _accept([about], key=key, word=word, by=actor.user_id)


@transaction.atomic
def accept_for_athletes(*, actor: Actor, athletes: Iterable[Athlete], key: str, word: str) -> None:
    """The same finding of several athletes, who all are the actor's."""
    asked = {athlete.pk: athlete for athlete in athletes}
    seen = Athlete.objects.visible_to(actor).live().filter(pk__in=asked).count()
    if not actor.may_write or seen < len(asked):
        raise PermissionDenied
    _accept([About(athlete=athlete) for athlete in asked.values()], key=key, word=word, by=actor.user_id)


def _accept(abouts: Iterable[About], *, key: str, word: str, by: int | None) -> None:
    """Rows that are there already are left as they are, whoever comes second."""
    rows = [
        FindingAcceptance(
            session=about.session,
            plan=about.plan,
            week=about.week,
            squad=about.squad,
            athlete=about.athlete,
            key=key,
            word=word,
            accepted_by_id=by,
            accepted_at=now(),
        )
        for about in abouts
    ]
    FindingAcceptance.objects.bulk_create(rows, ignore_conflicts=True)


@transaction.atomic
def withdraw_acceptance(*, actor: Actor, acceptance: FindingAcceptance) -> None:
    """The finding speaks again; who accepted it stays on record. Withdrawn again changes nothing."""
    row = acceptance
    require_about(actor, About(row.session, row.plan, row.week, row.squad, row.athlete))
    standing = FindingAcceptance.objects.standing().filter(pk=row.pk)
    standing.update(withdrawn_at=now(), withdrawn_by=actor.user_id)


@transaction.atomic
def set_rule(*, actor: Actor, rule: str, is_on: bool, value: Decimal | None) -> None:
    """Only the owner; ValueError for a code that is none, or a figure outside its range. The usual figure is no row."""
    if actor.kind is not ActorKind.OWNER:
        raise PermissionDenied
    known = RULES.get(rule)
    if known is None or (value is not None and not known.accepts(value)):
        raise ValueError(f"not a rule with such a figure: {rule!r}, {value}")
    own = None if value == known.default else value
    if is_on and own is None:
        ReviewSetting.objects.filter(rule=rule).delete()
        return
    row = ReviewSetting.objects.filter(rule=rule).first() or ReviewSetting(rule=rule)
    if row.pk is None or (row.is_on, row.value) != (is_on, own):
        row.is_on, row.value, row.set_by_id, row.set_at = is_on, own, actor.user_id, now()
        row.save()
