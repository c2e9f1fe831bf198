"""Everything an assignment needs to make cards, loaded once; who would get what, before anything is written."""

from __future__ import annotations

import hashlib
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any, cast

from django.db.models import OuterRef, Subquery, prefetch_related_objects

from coachhub.cards.models import Assignment, Card
from coachhub.cards.queries.athlete_facts import athlete_facts, with_history
from coachhub.cards.queries.door_steps import steps_by_card
from coachhub.cards.queries.session_facts import alternatives_to, exercise_facts, session_facts
from coachhub.coaching.door import DoorStep, changed_session
from coachhub.coaching.facts import AthleteFacts, DayFacts, SessionFacts, VenueFacts
from coachhub.coaching.resolve import ResolvedCard, ResolvedLine, is_left_out_at_door, resolve
from coachhub.library.models import Venue
from coachhub.library.queries import STOCK_PARTS, venue_kinds, venue_stock
from coachhub.people.models import Athlete, Availability, AvailabilityStatus, RedFlag, Squad
from coachhub.plans.models import Session
from coachhub.season.models import MatchDay


@dataclass(frozen=True, slots=True)
class Recipe:
    """The facts of one session for some athletes on one day at one venue.

    `sessions` and `venues`: of whom the session was changed at the door, or who trains elsewhere.
    """

    session: SessionFacts
    venue: VenueFacts
    day: DayFacts
    athletes: dict[int, AthleteFacts]
    sessions: Mapping[int, SessionFacts] = field(default_factory=dict)
    venues: Mapping[int, VenueFacts] = field(default_factory=dict)
    _cards: dict[int, ResolvedCard] = field(default_factory=dict, init=False, repr=False, compare=False)
    _texts: dict[int, str] = field(default_factory=dict, init=False, repr=False, compare=False)

    def session_of(self, athlete_id: int) -> SessionFacts:
        return self.sessions.get(athlete_id, self.session)

    def venue_of(self, athlete_id: int) -> VenueFacts:
        return self.venues.get(athlete_id, self.venue)

    def resolve(self, athlete_id: int) -> ResolvedCard:
        """Worked out once: the facts of a recipe never change."""
        if athlete_id not in self._cards:
            athlete = self.athletes[athlete_id]
            self._cards[athlete_id] = resolve(self.session_of(athlete_id), athlete, self.venue_of(athlete_id), self.day)
        return self._cards[athlete_id]

    def resolve_all(self) -> dict[int, ResolvedCard]:
        return {athlete_id: self.resolve(athlete_id) for athlete_id in self.athletes}

    def digest(self, athlete_id: int) -> str:
        """Names the inputs: equal digests mean an equal card. Sets are sorted: their order is not stable.

        A set that was done never changes: its key and its mark say it all.
        """
        athlete = self.athletes[athlete_id]
        done = {key: [(one.entry_id, one.is_clean) for one in sets] for key, sets in athlete.history.items()}
        place = self.venue_of(athlete_id)
        venue = (place.id, place.is_supervised, sorted(place.kinds), place.stock)
        others = [line.exercise for line in self.resolve(athlete_id).lines] if self.session.library else []
        own = repr((replace(athlete, history={}), done, venue, self.day, others))
        return hashlib.sha256(f"{self._session_text(athlete_id)}{own}".encode()).hexdigest()

    def _session_text(self, athlete_id: int) -> str:
        """The long part, which most athletes share."""
        key = athlete_id if athlete_id in self.sessions else 0
        if key not in self._texts:
            self._texts[key] = repr(self.session_of(athlete_id))
        return self._texts[key]


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
    *,
    session: Session,
    athletes: Sequence[Athlete],
    venue: Venue,
    on_date: date,
    week: int,
    squad: Squad | None,
    door: Mapping[int, Sequence[DoorStep]] | None = None,
    guests: Collection[int] = (),
) -> Recipe:
    """`door`: per athlete the steps in force."""
    steps = {pk: own for pk, own in (door or {}).items() if own}
    written = _with_swaps(session_facts(session, week), steps)
    likely = _likely(written)
    facts = athlete_facts(athletes, likely, on_date)
    recipe = Recipe(
        written,
        venue_facts(venue),
        day_facts(on_date, week, squad),
        {pk: replace(own, is_guest=True) if pk in guests else own for pk, own in facts.items()},
        {pk: changed_session(written, own) for pk, own in steps.items()},
    )
    return _with_history(_with_library(recipe), likely)


def _likely(session: SessionFacts) -> set[int]:
    """The exercises whose history is read for everybody: as written, the coach's swaps, the levels."""
    lines = [line for group in session.groups for line in group.lines]
    families = {session.exercises[line.exercise_id].family for line in lines if line.by_level} - {""}
    kin = {pk for pk, exercise in session.exercises.items() if exercise.family in families}
    return kin.union(*({line.exercise_id, *line.swap_ids} for line in lines))


def _with_library(recipe: Recipe) -> Recipe:
    """Let lines for which no listed swap will do look in the library; where there is no such line, nothing is read."""
    left = {line.exercise for card in recipe.resolve_all().values() for line in card.lines if _wants_more(line)}
    library = alternatives_to(left)
    if not library:
        return recipe
    sessions = {pk: replace(own, library=library) for pk, own in recipe.sessions.items()}
    return replace(recipe, session=replace(recipe.session, library=library), sessions=sessions)


def _with_history(recipe: Recipe, known: set[int]) -> Recipe:
    """Read what is known of exercises that nobody foresaw: a swap starts from its own history."""
    chosen = {line.exercise.id for card in recipe.resolve_all().values() for line in card.lines}
    new = chosen - known
    return replace(recipe, athletes=with_history(recipe.athletes, new, recipe.day.on_date)) if new else recipe


def _wants_more(line: ResolvedLine) -> bool:
    if line.status == "dropped":
        return not is_left_out_at_door(line.line)
    return any(step.code == "ask_for_lighter" for step in line.trace)


def _with_swaps(written: SessionFacts, steps: Mapping[int, Sequence[DoorStep]]) -> SessionFacts:
    """Know the exercises too that were only taken at the door."""
    taken = {step.value for own in steps.values() for step in own if step.do == "swap"} - set(written.exercises)
    return replace(written, exercises={**written.exercises, **exercise_facts(taken)}) if taken else written


def recipe_of(
    cards: Iterable[Card],
    *,
    more: Sequence[DoorStep] = (),
    but: int | None = None,
    venue: Venue | None = None,
    moved: tuple[date, Venue] | None = None,
) -> Recipe:
    """Return the facts to resolve cards of one assignment again, changes at the door included.

    `more`: steps on top, `but`: the change to leave out, `venue`: where these cards are trained instead.
    `moved`: day and venue that the assignment is about to have.
    """
    cards = list(cards)
    assignment = Assignment.objects.select_related("session", "venue", "squad").get(pk=cards[0].assignment_id)
    on_date, place = moved or (assignment.on_date, assignment.venue)
    steps = steps_by_card(assignment.pk, [card.pk for card in cards], but=but)
    recipe = recipe_for(
        session=assignment.session,
        athletes=list(Athlete.objects.filter(pk__in=[card.athlete_id for card in cards])),
        venue=venue or place,
        on_date=on_date,
        week=assignment.week,
        squad=assignment.squad,
        door={card.athlete_id: (*steps[card.pk], *more) for card in cards},
        guests={card.athlete_id for card in cards if card.is_guest},
    )
    return recipe if venue else replace(recipe, venues=_elsewhere(cards))


def _elsewhere(cards: Sequence[Card]) -> dict[int, VenueFacts]:
    """The places of those who do not train where the assignment is."""
    places = {card.athlete_id: card.venue_id for card in cards if card.venue_id}
    if not places:
        return {}
    facts = {row.pk: venue_facts(row) for row in Venue.objects.filter(pk__in=set(places.values()))}
    return {pk: facts[venue_id] for pk, venue_id in places.items()}


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
