"""Everything an assignment needs to make cards, loaded once; who would get what, before anything is written."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any, cast

from django.db.models import OuterRef, Subquery, prefetch_related_objects

from coachhub.cards.models import Card
from coachhub.cards.queries.athlete_facts import athlete_facts
from coachhub.cards.queries.session_facts import session_facts
from coachhub.coaching.facts import AthleteFacts, DayFacts, SessionFacts, VenueFacts
from coachhub.coaching.resolve import ResolvedCard, resolve
from coachhub.library.models import Venue
from coachhub.library.queries import STOCK_PARTS, venue_kinds, venue_stock
from coachhub.people.models import Athlete, Availability, AvailabilityStatus, RedFlag, Squad
from coachhub.plans.models import Session
from coachhub.season.models import MatchDay


@dataclass(frozen=True, slots=True)
class Recipe:
    """The facts of one session for some athletes on one day at one venue."""

    session: SessionFacts
    venue: VenueFacts
    day: DayFacts
    athletes: dict[int, AthleteFacts]

    def resolve(self, athlete_id: int) -> ResolvedCard:
        return resolve(self.session, self.athletes[athlete_id], self.venue, self.day)

    def digest(self, athlete_id: int) -> str:
        """Names the inputs: equal digests mean an equal card. Sets are sorted: their order is not stable."""
        venue = (self.venue.id, self.venue.is_supervised, sorted(self.venue.kinds), self.venue.stock)
        text = repr((self.session, self.athletes[athlete_id], venue, self.day))
        return hashlib.sha256(text.encode()).hexdigest()


@dataclass(frozen=True, slots=True)
class PreviewRow:
    """What one athlete would get; `waits` names a red flag nobody has cleared."""

    athlete: Athlete
    card: ResolvedCard
    availability: AvailabilityStatus
    waits: bool


def venue_facts(venue: Venue) -> VenueFacts:
    prefetch_related_objects([venue], *STOCK_PARTS)
    return VenueFacts(
        venue.pk, venue.is_supervised, cast(Any, str(venue.unit)), frozenset(venue_kinds(venue)), venue_stock(venue)
    )


def day_facts(on_date: date, week: int, squad: Squad | None) -> DayFacts:
    matches = MatchDay.objects.filter(squad=squad, on_date__gte=on_date, cancelled_at=None).order_by("on_date")
    first = matches.values_list("on_date", flat=True).first() if squad else None
    return DayFacts(on_date, week, (first - on_date).days if first else None)


def recipe_for(
    *, session: Session, athletes: Sequence[Athlete], venue: Venue, on_date: date, week: int, squad: Squad | None
) -> Recipe:
    written = session_facts(session, week)
    return Recipe(
        written,
        venue_facts(venue),
        day_facts(on_date, week, squad),
        athlete_facts(athletes, written.exercises, on_date),
    )


def preview(
    *, session: Session, athletes: Sequence[Athlete], venue: Venue, on_date: date, week: int, squad: Squad | None
) -> tuple[PreviewRow, ...]:
    recipe = recipe_for(session=session, athletes=athletes, venue=venue, on_date=on_date, week=week, squad=squad)
    status = availability_of([a.pk for a in athletes], on_date)
    flagged = waiting_athletes([a.pk for a in athletes])
    return tuple(
        PreviewRow(athlete, recipe.resolve(athlete.pk), status[athlete.pk], athlete.pk in flagged)
        for athlete in athletes
    )


def availability_of(athlete_ids: Sequence[int], on_date: date) -> dict[int, AvailabilityStatus]:
    """Return each athlete's availability on that day; full where nobody said otherwise."""
    newest = Availability.objects.filter(athlete=OuterRef("pk"), from_on__lte=on_date).order_by("-from_on", "-pk")
    rows = Athlete.objects.filter(pk__in=athlete_ids).values_list("pk", Subquery(newest.values("status")[:1]))
    return {pk: AvailabilityStatus(status or AvailabilityStatus.FULL) for pk, status in rows}


def waiting_athletes(athlete_ids: Sequence[int]) -> frozenset[int]:
    """Return those whose cards wait for a clearance."""
    rows = RedFlag.objects.filter(athlete__in=athlete_ids, cleared_at=None)
    return frozenset(rows.values_list("athlete_id", flat=True))


def holders(session: Session, on_date: date, venue: Venue, athlete_ids: Sequence[int]) -> dict[int, int]:
    """Return, per athlete who holds a live card of this session for that day and venue, the assignment it is on."""
    live = Card.objects.filter(assignment__session=session, assignment__on_date=on_date, assignment__venue=venue)
    rows = live.filter(athlete__in=athlete_ids, assignment__cancelled_at=None).order_by("pk")
    return dict(rows.values_list("athlete_id", "assignment_id"))
