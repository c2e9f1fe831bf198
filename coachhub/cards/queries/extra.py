"""Extra work for those who hardly played a match: who, which session, which hours of the squad after it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from django.db.models import Q

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.cards.queries.fitting import start_of
from coachhub.coaching.fitting import hardly_played
from coachhub.coaching.series import Occasion, monday_of
from coachhub.people.models import Athlete
from coachhub.plans.models import Session, SessionRole
from coachhub.plans.queries_fit import rules_of
from coachhub.season.models import MatchDay
from coachhub.season.queries import span_of_squads

# Later than this after a match, extra work is no longer for having missed it (common practice: within two days).
_LATEST: Final = 3


@dataclass(frozen=True, slots=True)
class Extra:
    athletes: tuple[Athlete, ...]
    sessions: tuple[Session, ...]
    hours: tuple[Occasion, ...]

    @property
    def is_possible(self) -> bool:
        return bool(self.athletes and self.sessions and self.hours)


def is_recent(match: MatchDay) -> bool:
    """It is over, and not for long."""
    return match.cancelled_at is None and 0 <= (today() - match.on_date).days <= _LATEST


def extra_for(actor: Actor, match: MatchDay, played: Mapping[int, int]) -> Extra:
    """By name. `played`: minutes per athlete; of whom none are noted is not among them.

    In the same queries for one athlete or thirty.
    """
    few = Athlete.objects.visible_to(actor).live().filter(pk__in=hardly_played(played))
    of_squad = Q(plan__squad=match.squad_id) | Q(plan__squad=None)
    sessions = Session.objects.visible_to(actor).live().filter(of_squad, role=SessionRole.EXTRA, plan__archived_at=None)
    days = next((rule.days for rule in rules_of(match.squad) if rule.role == SessionRole.EXTRA.value), ())
    span = span_of_squads([match.squad_id], match.on_date, match.on_date + timedelta(days=_LATEST))
    hours = [one for one in span.slots if one.on_date >= today() and one.venue_id is not None]
    wanted = [one for one in hours if (one.on_date - match.on_date).days in days]
    return Extra(
        tuple(few.order_by("search_key", "pk")),
        tuple(sessions.select_related("plan").order_by("name", "pk")),
        tuple(wanted or [one for one in hours if one.on_date > match.on_date]),
    )


def week_for(session: Session, on_date: date) -> int:
    """The plan's week in which that day lies, as the plan is given; the nearest in which the session is written."""
    week = (monday_of(on_date) - start_of(session.plan)).days // 7 + 1
    return max(session.week_from, min(week, session.week_to))
