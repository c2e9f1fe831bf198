"""What the story of one squad is played with."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, timedelta
from functools import cached_property
from random import Random
from typing import Any

from coachhub.base.actor import Actor
from coachhub.cards.queries.resolving import Recipe, availability_of, day_facts, venue_facts
from coachhub.cards.queries.session_facts import session_facts
from coachhub.coaching.facts import SessionFacts, VenueFacts
from coachhub.demo.club import Member
from coachhub.demo.data import SESSIONS_A_WEEK, SquadStory
from coachhub.demo.lifting import Lift, Trainee
from coachhub.demo.log import Log
from coachhub.demo.truth import Ability
from coachhub.library.models import Venue
from coachhub.people.models import AvailabilityStatus, Squad
from coachhub.plans.models import Session

ON_THE_ROAD = "road"


@dataclass
class Stage:
    """`lifts` by exercise; `staff` by user name, `members` by given name; `days` of the past sessions, by number."""

    seed: int
    today: date
    days: list[date]
    story: SquadStory
    squad: Squad
    staff: dict[str, Actor]
    members: dict[str, Member]
    venues: dict[str, Venue]
    sessions: list[Session]
    lifts: dict[int, Lift]
    log: Log = field(default_factory=Log)
    written: dict[tuple[int, int], SessionFacts] = field(default_factory=dict)

    @property
    def coach(self) -> Actor:
        return self.staff[self.story.coach]

    @property
    def assistant(self) -> Actor:
        return self.staff["assistant"]

    @cached_property
    def rooms(self) -> dict[str, VenueFacts]:
        return {key: venue_facts(venue) for key, venue in self.venues.items()}

    def review_day(self, row: dict[str, Any]) -> date:
        """When a restriction is looked at again: before a past session, or so many days from today."""
        if "review_before" in row:
            return self.days[int(row["review_before"])]
        return self.today + timedelta(days=int(row["review_in"]))

    def evening(self, number: int, on_date: date) -> Evening:
        """Return the session of that number with everyone who is not out; the plan starts over after its last week."""
        session = self.sessions[number % len(self.sessions)]
        week = number // SESSIONS_A_WEEK % session.plan.weeks + 1
        venue = ON_THE_ROAD if number in self.story.on_the_road else self.story.venue
        status = availability_of([member.athlete.pk for member in self.members.values()], on_date)
        there = [m for m in self.members.values() if status[m.athlete.pk] != AvailabilityStatus.OUT]
        return Evening(self, number, on_date, session, week, venue, there)

    def facts_of(self, session: Session, week: int) -> SessionFacts:
        """Read once for each week of the plan."""
        if (session.pk, week) not in self.written:
            self.written[session.pk, week] = session_facts(session, week)
        return self.written[session.pk, week]


@dataclass(frozen=True, slots=True)
class Evening:
    """A squad's session on a day: which, where, and who comes."""

    stage: Stage
    number: int
    on_date: date
    session: Session
    week: int
    place: str
    there: list[Member]

    @property
    def venue(self) -> Venue:
        return self.stage.venues[self.place]

    def recipe(self) -> Recipe:
        """The facts that the pages would load, out of the log."""
        written = self.stage.facts_of(self.session, self.week)
        athletes = [member.athlete for member in self.there]
        return Recipe(
            written,
            self.stage.rooms[self.place],
            day_facts(self.on_date, self.week, self.stage.squad),
            self.stage.log.facts(athletes, written.exercises, self.on_date),
        )

    def trainee(self, member: Member, recipe: Recipe) -> Trainee:
        """The athlete that day. Her seed is her own, so that what she does hangs on nobody else."""
        person, facts = member.person, recipe.athletes[member.athlete.pk]
        name = f"{self.stage.seed} {self.stage.story.key} {member.athlete.name}"
        ability = Ability(name, person.strength, person.level)
        rng = Random(f"{name} {self.number}")
        return Trainee(ability, self.stage.lifts, facts, recipe.venue, recipe.day, self.number, rng)
