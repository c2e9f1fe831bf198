"""Accepting a finding, taking that back, setting a rule."""

from __future__ import annotations

from decimal import Decimal

import pytest
from django.core.exceptions import PermissionDenied
from django.db.models import Q

from coachhub.coaching.review import Thresholds
from coachhub.people.models import Athlete
from coachhub.plans.actions_review import About, accept_finding, set_rule, withdraw_acceptances
from coachhub.plans.models import FindingAcceptance, ReviewSetting
from coachhub.plans.queries_review import thresholds
from tests.cast import Cast, Role

pytestmark = pytest.mark.django_db

KEY = "rest_heavy:p1"
WRITERS = [Role.OWNER, Role.COACH]
OTHERS = [Role.OTHER_COACH, Role.ASSISTANT, Role.CLINICIAN, Role.HEAD_COACH, Role.ATHLETE]


def abouts(cast: Cast) -> list[About]:
    plan = cast.session.plan
    return [
        About(session=cast.session),
        About(plan=plan, week=1),
        About(squad=cast.squad),
        About(athlete=cast.athlete),
    ]


def of(*athletes: Athlete) -> list[About]:
    return [About(athlete=athlete) for athlete in athletes]


@pytest.mark.parametrize("role", WRITERS)
def test_acceptance_keeps_who_and_why_and_is_kept_once(cast: Cast, role: Role) -> None:
    actor = cast.actor_of(role)
    for about in abouts(cast):
        accept_finding(actor=actor, abouts=[about], key=KEY, word="Testing week")
        accept_finding(actor=actor, abouts=[about], key=KEY, word="Another word")

    rows = FindingAcceptance.objects.all()
    assert [(row.key, row.word, row.accepted_by_id) for row in rows] == [(KEY, "Testing week", actor.user_id)] * 4


@pytest.mark.parametrize("role", OTHERS)
def test_nobody_else_accepts_or_withdraws(cast: Cast, role: Role) -> None:
    accept_finding(actor=cast.actor_of(Role.COACH), abouts=[About(session=cast.session)], key=KEY, word="Agreed")
    row = FindingAcceptance.objects.get()

    for about in abouts(cast):
        with pytest.raises(PermissionDenied):
            accept_finding(actor=cast.actor_of(role), abouts=[about], key="other:p1", word="Agreed")
    with pytest.raises(PermissionDenied):
        withdraw_acceptances(actor=cast.actor_of(role), ids=[row.pk], about=Q())
    assert list(FindingAcceptance.objects.values_list("pk", "withdrawn_at")) == [(row.pk, None)]


def test_withdrawn_finding_can_be_accepted_anew(cast: Cast) -> None:
    coach, about = cast.actor_of(Role.COACH), About(session=cast.session)
    accept_finding(actor=coach, abouts=[about], key=KEY, word="First")
    first = FindingAcceptance.objects.get()

    withdraw_acceptances(actor=coach, ids=[first.pk], about=Q())
    withdrawn_at = FindingAcceptance.objects.get().withdrawn_at
    withdraw_acceptances(actor=coach, ids=[first.pk], about=Q())
    accept_finding(actor=coach, abouts=[about], key=KEY, word="Second")

    rows = FindingAcceptance.objects.order_by("pk")
    assert [(row.word, row.withdrawn_at) for row in rows] == [("First", withdrawn_at), ("Second", None)]
    assert withdrawn_at is not None


def test_withdrawing_leaves_alone_what_is_about_something_else(cast: Cast) -> None:
    coach = cast.actor_of(Role.COACH)
    for about in abouts(cast):
        accept_finding(actor=coach, abouts=[about], key=KEY, word="Agreed")
    ids = list(FindingAcceptance.objects.values_list("pk", flat=True))

    withdraw_acceptances(actor=coach, ids=ids, about=Q(session=cast.session))

    assert FindingAcceptance.objects.standing().filter(session=None).count() == 3
    assert not FindingAcceptance.objects.standing().filter(session=cast.session).exists()


def test_several_athletes_are_accepted_for_at_once_or_none(cast: Cast) -> None:
    coach = cast.actor_of(Role.COACH)

    with pytest.raises(PermissionDenied):
        accept_finding(actor=coach, abouts=of(cast.athlete, cast.child), key=KEY, word="Agreed")
    assert not FindingAcceptance.objects.exists()

    accept_finding(actor=coach, abouts=of(cast.athlete, cast.team_mate), key=KEY, word="Agreed")
    assert set(FindingAcceptance.objects.values_list("athlete", flat=True)) == {cast.athlete.pk, cast.team_mate.pk}


def test_owner_switches_a_rule_off_and_edits_its_threshold(cast: Cast) -> None:
    owner = cast.actor_of(Role.OWNER)

    set_rule(actor=owner, rule="rest_heavy", is_on=True, value=Decimal(150))
    set_rule(actor=owner, rule="over_slot", is_on=False, value=None)
    assert thresholds() == Thresholds(frozenset({"over_slot"}), {"rest_heavy": Decimal(150)})

    set_rule(actor=owner, rule="rest_heavy", is_on=True, value=Decimal(120))
    set_rule(actor=owner, rule="over_slot", is_on=True, value=None)
    assert thresholds() == Thresholds()
    assert not ReviewSetting.objects.exists()


@pytest.mark.parametrize(
    ("rule", "value"),
    [("nonsense", None), ("rest_heavy", Decimal(5)), ("rest_heavy", Decimal(9999)), ("alone", Decimal(1))],
)
def test_rule_that_is_none_and_figure_outside_its_range_are_refused(
    cast: Cast, rule: str, value: Decimal | None
) -> None:
    with pytest.raises(ValueError, match="not a rule"):
        set_rule(actor=cast.actor_of(Role.OWNER), rule=rule, is_on=True, value=value)
    assert not ReviewSetting.objects.exists()


@pytest.mark.parametrize("role", [Role.COACH, *OTHERS])
def test_only_the_owner_sets_rules(cast: Cast, role: Role) -> None:
    with pytest.raises(PermissionDenied):
        set_rule(actor=cast.actor_of(role), rule="rest_heavy", is_on=False, value=None)
    assert not ReviewSetting.objects.exists()
