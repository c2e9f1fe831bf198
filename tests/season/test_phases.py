"""Phases never overlap, take the usual targets where none are told, and say what a week is weighed against."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from django.core.exceptions import PermissionDenied, ValidationError

from coachhub.coaching.review.phases import PHASES, USUAL, Target
from coachhub.season.actions import remove_phase, set_phase
from coachhub.season.models import PhaseCode, PhaseTarget, SeasonPhase
from coachhub.season.queries_phases import phase_on
from tests.cast import Cast, Role
from tests.season.dates import MONDAY

END = MONDAY + timedelta(weeks=4, days=-1)


def power(cast: Cast, **more: Any) -> SeasonPhase:
    told = {"code": "power", "from_on": MONDAY, "to_on": END, "targets": {}, **more}
    return set_phase(actor=cast.actor_of(Role.COACH), squad=cast.squad, **told)


def test_codes_are_those_of_the_checks() -> None:
    assert tuple(PhaseCode.values) == PHASES


def test_pattern_without_a_target_takes_the_usual_one(cast: Cast) -> None:
    power(cast, targets={"hinge": Target(5, 6)})

    phase = phase_on(cast.squad.pk, MONDAY)

    assert phase is not None
    assert (phase.code, phase.targets) == ("power", {**USUAL["power"].targets, "hinge": Target(5, 6)})


def test_day_outside_any_phase_has_none(cast: Cast) -> None:
    power(cast)

    found = [phase_on(cast.squad.pk, day) for day in (MONDAY - timedelta(days=1), END + timedelta(days=1))]

    assert (found, phase_on(cast.other_squad.pk, MONDAY)) == ([None, None], None)


@pytest.mark.parametrize(("first", "last"), [(MONDAY, MONDAY), (END, END + timedelta(days=9)), (date(2026, 1, 1), END)])
def test_phase_in_days_of_another_is_refused(cast: Cast, first: date, last: date) -> None:
    power(cast)

    with pytest.raises(ValidationError, match=r"In these days lies “power”, 30 Nov 2026 – 27 Dec 2026\."):
        power(cast, code="deload", from_on=first, to_on=last)


def test_phase_sent_twice_is_one_and_can_be_changed_and_removed(cast: Cast) -> None:
    power(cast)
    phase = power(cast)
    power(cast, phase=phase, code="deload", to_on=END + timedelta(days=7))
    assert [(row.code, row.to_on, row.targets.count()) for row in SeasonPhase.objects.all()] == [
        ("deload", END + timedelta(days=7), 5)
    ]

    remove_phase(actor=cast.actor_of(Role.COACH), phase=phase)

    assert (SeasonPhase.objects.count(), PhaseTarget.objects.count()) == (0, 0)


@pytest.mark.parametrize("role", [Role.OTHER_COACH, Role.ASSISTANT, Role.ATHLETE])
def test_nobody_else_sets_phases(cast: Cast, role: Role) -> None:
    with pytest.raises(PermissionDenied):
        set_phase(actor=cast.actor_of(role), squad=cast.squad, code="power", from_on=MONDAY, to_on=END, targets={})
