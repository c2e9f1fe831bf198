"""What breaks the constraints of rules that fit a plan to the season."""

from __future__ import annotations

from coachhub.base.clock import now
from coachhub.plans.models import FitRule
from tests.constraints import Break, check, twin
from tests.factories import SessionFactory, SquadFactory


def rule() -> FitRule:
    return FitRule.objects.create(squad=SquadFactory.create(), role="main", days="-4,-3", set_at=now())


FIT_BREAKS: dict[str, Break] = {
    "session_role": check(SessionFactory.create, role="lunch"),
    "session_variant": check(SessionFactory.create, variant="odd_week"),
    "fit_rule_once": twin(rule, "squad", "role"),
    "fit_rule_role": check(rule, role="lunch"),
    "fit_rule_any_has_none": check(rule, role="any"),
    "fit_rule_only_names_days": check(rule, days="", is_only=True),
}
