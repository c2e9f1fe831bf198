"""What the story is played with."""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

from coachhub.demo.club import DemoClub, Member
from coachhub.demo.data import Story
from coachhub.demo.lifting import Trainee
from coachhub.library.models import Exercise, Venue
from coachhub.plans.models import Session


@dataclass(frozen=True, slots=True)
class Stage:
    """`lifts`: kilograms for strength 1.0, by exercise."""

    club: DemoClub
    venue: Venue
    sessions: list[Session]
    story: Story
    lifts: dict[int, float]
    rng: Random

    def trainee(self, member: Member, number: int) -> Trainee:
        """The athlete on the day of the session of that number."""
        return Trainee(member.person.strength, self.lifts, member.athlete.is_rir_taught, number, self.rng)


def make_stage(club: DemoClub, venue: Venue, sessions: list[Session], story: Story) -> Stage:
    keys = dict(Exercise.objects.filter(origin_key__in=story.lifts).values_list("origin_key", "pk"))
    lifts = {keys[key]: kg for key, kg in story.lifts.items()}
    return Stage(club, venue, sessions, story, lifts, Random(story.seed))
