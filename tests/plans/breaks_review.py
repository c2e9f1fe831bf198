"""What breaks the constraints of rules and acceptances."""

from __future__ import annotations

from coachhub.base.clock import now
from coachhub.plans.models import FindingAcceptance, ReviewSetting
from tests.constraints import Break, check, twin
from tests.factories import AthleteFactory, PlanFactory, SessionFactory, SquadFactory

CODES = iter(f"rule_{number}" for number in range(1000))
KEYS = iter(f"rest_heavy:p{number}" for number in range(1000))


def setting() -> ReviewSetting:
    return ReviewSetting.objects.create(rule=next(CODES), set_at=now())


def accepted(**about: object) -> FindingAcceptance:
    return FindingAcceptance.objects.create(key=next(KEYS), word="Agreed", accepted_at=now(), **about)


def of_session() -> FindingAcceptance:
    return accepted(session=SessionFactory.create())


def of_week() -> FindingAcceptance:
    return accepted(plan=PlanFactory.create(), week=1)


def of_squad() -> FindingAcceptance:
    return accepted(squad=SquadFactory.create())


def of_athlete() -> FindingAcceptance:
    return accepted(athlete=AthleteFactory.create())


REVIEW_BREAKS: dict[str, Break] = {
    "review_rule_named": check(setting, rule=""),
    "review_value_not_negative": check(setting, value=-1),
    "ReviewSetting.rule": twin(setting, "rule"),
    "acceptance_about_one_thing": check(of_session, week=1),
    "acceptance_has_key_and_word": check(of_session, word=""),
    "acceptance_week": check(of_week, week=53),
    "session_finding_accepted_once": twin(of_session, "session", "key"),
    "week_finding_accepted_once": twin(of_week, "plan", "week", "key"),
    "squad_finding_accepted_once": twin(of_squad, "squad", "key"),
    "athlete_finding_accepted_once": twin(of_athlete, "athlete", "key"),
}
