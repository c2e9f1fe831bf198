"""A squad's fortnight for the checks: each athlete's own days with what their cards ask, and the floor of each day."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final

from django.db.models import F, Q

from coachhub.base.actor import Actor
from coachhub.base.clock import today
from coachhub.cards.models import Card, CardLine, LineStatus
from coachhub.cards.queries.calendars import calendars_of
from coachhub.coaching.facts import ExerciseFacts, GroupFacts, SessionFacts
from coachhub.coaching.review import (
    CalendarDay,
    Finding,
    Floor,
    Person,
    Thresholds,
    read,
    review_athlete,
    review_floor,
)
from coachhub.library.models import ALWAYS_THERE, Equipment, Exercise, Venue
from coachhub.library.queries import stocked_venues
from coachhub.people.models import Athlete, Squad, StaffRole, StaffSquad
from coachhub.plans.facts_review import facts_of, written_facts
from coachhub.plans.models import FindingAcceptance
from coachhub.plans.queries import load_sessions, movements, weeks_of
from coachhub.plans.queries_review import standing_acceptances, thresholds

# What lies this near to the fortnight can be too near to one of its days.
MARGIN: Final = timedelta(days=5)
# Nobody counts the walls of a room.
_PLENTY: Final = 10_000
# Key of a line on a card -> what is trained there, in how many sets.
_Given = Mapping[str, tuple[int, int]]


@dataclass(frozen=True, slots=True)
class GivenDay:
    """A session given to the squad, with what is remarked on its floor."""

    assignment_id: int
    on_date: date
    session: str
    venue: str
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class SquadReview:
    """`athletes` by name, those without a remark too."""

    days: tuple[GivenDay, ...]
    athletes: tuple[tuple[Athlete, tuple[Finding, ...]], ...]
    acceptances: tuple[FindingAcceptance, ...]


def review_of_squad(actor: Actor, squad: Squad, first: date, last: date) -> SquadReview:
    """In the same queries for one athlete or thirty, one session or ten."""
    day = max(first, min(today(), last))
    members = Athlete.objects.visible_to(actor).members_of(squad.pk, day)
    athletes = list(members.order_by("search_key", "pk"))
    cards = _cards(squad, athletes, first, last)
    sessions = _sessions(cards)
    limits = thresholds()
    about = Q(squad=squad) | Q(athlete__in=athletes)
    return SquadReview(
        days=_floors(squad, [card for card in cards if first <= card.assignment.on_date <= last], sessions, limits),
        athletes=_athletes(athletes, cards, sessions, (first, last), limits),
        acceptances=tuple(standing_acceptances(about)),
    )


def _cards(squad: Squad, athletes: Collection[Athlete], first: date, last: date) -> list[Card]:
    """Every card of the squad's sessions, and every other card of its athletes."""
    whose = Q(athlete__in=athletes) | Q(assignment__squad=squad)
    near = Q(assignment__on_date__range=(first - MARGIN, last + MARGIN), assignment__cancelled_at=None)
    rows = Card.objects.filter(whose & near).select_related("athlete", "assignment__session", "assignment__venue")
    return list(rows.order_by("assignment__on_date", "assignment", "pk"))


@dataclass(frozen=True, slots=True)
class _Sessions:
    """`written`: by session and week; `given`: by card."""

    written: Mapping[tuple[int, int], SessionFacts]
    given: Mapping[int, _Given]

    def of(self, card: Card) -> SessionFacts | None:
        return self.written.get((card.assignment.session_id, card.assignment.week))

    def own(self, card: Card) -> SessionFacts | None:
        """As this athlete has it: what was left out is gone, what was swapped or eased is so."""
        written, given = self.of(card), self.given.get(card.pk, {})
        if written is None:
            return None
        return replace(written, groups=tuple(_as_given(group, given) for group in written.groups))

    def on_the_floor(self, cards: Sequence[Card]) -> SessionFacts | None:
        """As most of these cards have it; a line that none has is not on the floor."""
        most: dict[str, tuple[int, int]] = {}
        written = self.of(cards[0])
        for line in (line for group in written.groups for line in group.lines) if written else ():
            done = Counter(lines[line.key] for card in cards if line.key in (lines := self.given.get(card.pk, {})))
            if done:
                most[line.key] = done.most_common(1)[0][0]
        if written is None:
            return None
        return replace(written, groups=tuple(_as_given(group, most) for group in written.groups))


def _as_given(group: GroupFacts, given: _Given) -> GroupFacts:
    lines = [
        replace(line, exercise_id=given[line.key][0], sets=given[line.key][1])
        for line in group.lines
        if line.key in given
    ]
    return replace(group, lines=tuple(lines))


def _sessions(cards: Collection[Card]) -> _Sessions:
    given: defaultdict[int, dict[str, tuple[int, int]]] = defaultdict(dict)
    current = CardLine.objects.filter(
        revision__card__in=cards, revision__number=F("revision__card__revision_number"), status=LineStatus.PLANNED
    )
    for card, key, exercise, sets in current.values_list("revision__card", "line_key", "exercise", "sets"):
        given[card][key] = (exercise, sets)
    trees = load_sessions({card.assignment.session_id for card in cards})
    values = weeks_of(*(tree.session for tree in trees.values()))
    used = {pk for tree in trees.values() for pk in tree.exercises}
    exercises = _exercises(used | {exercise for lines in given.values() for exercise, _sets in lines.values()})
    asked = {(card.assignment.session_id, card.assignment.week) for card in cards}
    written = {
        (pk, week): written_facts(trees[pk], exercises, values, week) for pk, week in sorted(asked) if pk in trees
    }
    return _Sessions(written, given)


def _exercises(ids: Collection[int]) -> dict[int, ExerciseFacts]:
    known = movements(ids)
    return {row.pk: facts_of(row, known.get(row.pk)) for row in Exercise.objects.filter(pk__in=ids)}


def _floors(squad: Squad, cards: Sequence[Card], sessions: _Sessions, limits: Thresholds) -> tuple[GivenDay, ...]:
    own = [card for card in cards if card.assignment.squad_id == squad.pk]
    venues = {venue.pk: venue for venue in stocked_venues(with_away=True)}
    staff = StaffSquad.objects.filter(
        squad=squad, staff__archived_at=None, staff__role__in=[StaffRole.COACH, StaffRole.ASSISTANT]
    ).count()
    by_assignment: dict[int, list[Card]] = {}
    for card in own:
        by_assignment.setdefault(card.assignment_id, []).append(card)
    return tuple(_floor(those, sessions, venues, staff, limits) for those in by_assignment.values())


def _floor(
    cards: Sequence[Card], sessions: _Sessions, venues: Mapping[int, Venue], staff: int, limits: Thresholds
) -> GivenDay:
    """Its findings are about the assignment, so that what is accepted of one day says nothing of the next."""
    given, there = cards[0].assignment, sessions.on_the_floor(cards)
    venue = venues[given.venue_id]
    ages = tuple(card.athlete.age_on(given.on_date) for card in cards)
    floor = Floor(ages, staff, is_supervised=venue.is_supervised, counts=equipment_counts(venue))
    found = review_floor(read(there), floor, limits) if there else ()
    about = tuple(replace(one, about=f"a{given.pk}.{one.about}") for one in found)
    return GivenDay(given.pk, given.on_date, given.session.name, venue.name, about)


def equipment_counts(venue: Venue) -> dict[str, int]:
    """Pieces of each kind that stand there; what is found wherever people train is never short, and plates go round."""
    counts: defaultdict[str, int] = defaultdict(int, {str(kind): _PLENTY for kind in ALWAYS_THERE})
    pieces: list[tuple[str, int]] = [
        *((row.kind, row.count) for row in venue.items.all()),
        *((row.kind, row.count) for row in venue.bars.all()),
        *((row.kind, row.count) for row in venue.weights.all()),
    ]
    for kind, count in pieces:
        counts[kind] += count
    for scale in venue.scales.all():
        counts[scale.kind] += 1
    if any(plate.pairs for plate in venue.plates.all()):
        counts[Equipment.PLATES.value] = _PLENTY
    return dict(counts)


def _athletes(
    athletes: Sequence[Athlete],
    cards: Iterable[Card],
    sessions: _Sessions,
    span: tuple[date, date],
    limits: Thresholds,
) -> tuple[tuple[Athlete, tuple[Finding, ...]], ...]:
    first, last = span
    days = calendars_of(athletes, first - MARGIN, last + MARGIN)
    for card in cards:
        if card.athlete_id in days:
            days[card.athlete_id].append(_gym_day(card, sessions.own(card)))
    return tuple(
        (one, review_athlete(_person(one, first), days[one.pk], first=first, last=last, thresholds=limits))
        for one in athletes
    )


def _gym_day(card: Card, session: SessionFacts | None) -> CalendarDay:
    given = card.assignment
    return CalendarDay(
        given.on_date, "gym", f"a{given.pk}", given.session.name, read(session) if session is not None else None
    )


def _person(athlete: Athlete, day: date) -> Person:
    return Person(athlete.age_on(day), str(athlete.level))
