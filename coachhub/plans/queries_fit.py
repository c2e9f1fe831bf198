"""A squad's rules for fitting a plan to its season, and which of a plan's sessions are heavy for the legs."""

from __future__ import annotations

from collections.abc import Collection
from typing import Final, cast

from coachhub.coaching.fitting import DEFAULT_RULES, FitRule, Role
from coachhub.coaching.review import read
from coachhub.people.models import Squad
from coachhub.plans import models
from coachhub.plans.facts_review import written_facts
from coachhub.plans.queries import load_sessions, movements, weeks_of
from coachhub.plans.queries_review import exercises_of

USUAL: Final = {rule.role: rule for rule in DEFAULT_RULES}


def rules_of(squad: Squad) -> tuple[FitRule, ...]:
    """By importance: the squad's own rule, else the usual one."""
    own = {row.role: _rule(row) for row in models.FitRule.objects.filter(squad=squad)}
    return tuple(own.get(role, usual) for role, usual in USUAL.items())


def days_text(days: Collection[int]) -> str:
    """As they are stored: "-4,-3"."""
    return ",".join(str(day) for day in days)


def heavy_for_legs(asked: Collection[tuple[int, int]]) -> set[tuple[int, int]]:
    """Return those of these sessions, each in a week of its plan, that load the legs in earnest. Six queries."""
    trees = load_sessions({pk for pk, _week in asked})
    values = weeks_of(*(tree.session for tree in trees.values()))
    known = movements(pk for tree in trees.values() for pk in tree.exercises)
    exercises = exercises_of(list(trees.values()), known)
    return {
        (pk, week)
        for pk, week in asked
        if pk in trees and read(written_facts(trees[pk], exercises, values, week)).heavy_legs
    }


def _rule(row: models.FitRule) -> FitRule:
    days = tuple(int(day) for day in row.days.split(",") if day)
    return FitRule(cast(Role, row.role), days, only=row.is_only)
