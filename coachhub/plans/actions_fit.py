"""Verbs on a squad's rules for fitting a plan to its season."""

from __future__ import annotations

from collections.abc import Iterable

from django.core.exceptions import PermissionDenied
from django.db import transaction

from coachhub.base.actor import Actor
from coachhub.base.clock import now
from coachhub.coaching import fitting
from coachhub.people.models import Squad
from coachhub.plans.models import FitRule
from coachhub.plans.queries_fit import USUAL, days_text


@transaction.atomic
def set_fit_rules(*, actor: Actor, squad: Squad, rules: Iterable[fitting.FitRule]) -> None:
    """The squad's rules from now on; a role that is not named, or as usual, is no row."""
    seen = Squad.objects.visible_to(actor).filter(archived_at=None)
    if not actor.may_write or not seen.select_for_update().filter(pk=squad.pk).exists():
        raise PermissionDenied
    FitRule.objects.filter(squad=squad).delete()
    FitRule.objects.bulk_create(
        FitRule(
            squad=squad,
            role=rule.role,
            days=days_text(rule.days),
            is_only=rule.only,
            set_by_id=actor.user_id,
            set_at=now(),
        )
        for rule in rules
        if rule != USUAL[rule.role]
    )
