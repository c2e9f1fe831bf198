"""Verbs on the checks: accept a finding with a word, take that back, set a rule."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Final

from django.core.exceptions import PermissionDenied
from django.db import transaction
from django.db.models import Q

from coachhub.base.actor import Actor, ActorKind
from coachhub.base.clock import now
from coachhub.coaching.review import RULES
from coachhub.people.models import Athlete, Squad
from coachhub.plans.models import FindingAcceptance, Plan, ReviewSetting, Session

_SUBJECTS: Final = ("session", "plan", "squad", "athlete")


@dataclass(frozen=True, slots=True)
class About:
    """What a finding is about: exactly one of session, week of a plan, squad or athlete."""

    session: Session | None = None
    plan: Plan | None = None
    week: int | None = None
    squad: Squad | None = None
    athlete: Athlete | None = None

    @property
    def subject(self) -> Session | Plan | Squad | None:
        return self.session or self.plan or self.squad


def require_abouts(actor: Actor, abouts: Sequence[About]) -> None:
    """Whoever may change what it is about may accept what is remarked on it; one that is not theirs refuses all."""
    athletes = {about.athlete.pk for about in abouts if about.athlete is not None}
    seen = Athlete.objects.visible_to(actor).live().filter(pk__in=athletes).count() if athletes else 0
    others = {about.subject for about in abouts if about.athlete is None}
    if not actor.may_write or seen < len(athletes) or not all(_may_change(actor, one) for one in others):
        raise PermissionDenied


def _may_change(actor: Actor, subject: Session | Plan | Squad | None) -> bool:
    match subject:
        case Session():
            return Session.objects.editable_by(actor).filter(pk=subject.pk).exists()
        case Plan():
            return Plan.objects.editable_by(actor).filter(pk=subject.pk).exists()
        case Squad():
            return Squad.objects.visible_to(actor).filter(pk=subject.pk, archived_at=None).exists()
    return False


@transaction.atomic
def accept_finding(*, actor: Actor, abouts: Sequence[About], key: str, word: str) -> None:
    """It stays quiet from now on, for each of them. Accepting again leaves what is there, whoever comes second."""
    require_abouts(actor, abouts)
    _accept(abouts, key=key, word=word, by=actor.user_id)


def _accept(abouts: Iterable[About], *, key: str, word: str, by: int | None) -> None:
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
def withdraw_acceptances(*, actor: Actor, ids: Sequence[int], about: Q) -> None:
    """Findings speak again; who accepted them stays on record. `about` is what may be meant; others are left alone."""
    rows = list(FindingAcceptance.objects.standing().filter(about, pk__in=ids).select_related(*_SUBJECTS))
    require_abouts(actor, [About(row.session, row.plan, row.week, row.squad, row.athlete) for row in rows])
    taken = FindingAcceptance.objects.standing().filter(pk__in=[row.pk for row in rows])
    taken.update(withdrawn_at=now(), withdrawn_by=actor.user_id)


@transaction.atomic
def set_rules(*, actor: Actor, chosen: Mapping[str, tuple[bool, Decimal | None]]) -> None:
    """By code: whether it is on, and its figure; all or none."""
    for rule, (is_on, value) in chosen.items():
        set_rule(actor=actor, rule=rule, is_on=is_on, value=value)


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
