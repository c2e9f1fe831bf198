"""One evening in the gym: a session of two blocks, given to the athlete and the team-mate of the cast."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from decimal import Decimal
from uuid import UUID, uuid4

import pytest

from coachhub.base.actor import Actor
from coachhub.base.clock import now, today
from coachhub.cards.actions import Tap, assign_session
from coachhub.cards.models import Assignment, Card
from coachhub.cards.queries import load_sheet
from coachhub.cards.sheet import Sheet, SheetLine
from coachhub.library.models import Exercise
from coachhub.people.models import Athlete
from coachhub.plans.models import Prescription, PrescriptionSwap, Session
from tests.cast import Cast, Role
from tests.factories import (
    CircuitGroupFactory,
    ExerciseFactory,
    PrescriptionFactory,
    SegmentFactory,
    SessionFactory,
)


@dataclass
class Evening:
    cast: Cast
    session: Session
    squat: Prescription
    split: Prescription
    hinge: Prescription
    goblet: Exercise
    assignment: Assignment

    @property
    def coach(self) -> Actor:
        return self.cast.actor_of(Role.COACH)

    @property
    def athlete(self) -> Athlete:
        return self.cast.athlete

    @property
    def phone(self) -> Actor:
        return self.cast.actor_of(Role.ATHLETE)

    def card(self, athlete: Athlete | None = None) -> Card:
        return Card.objects.get(assignment=self.assignment, athlete=athlete or self.athlete)

    def sheet(self, athlete: Athlete | None = None) -> Sheet:
        sheet = load_sheet(Card.objects.all(), self.card(athlete).pk)
        assert sheet is not None
        return sheet

    def line(self, prescription: Prescription, athlete: Athlete | None = None) -> SheetLine:
        """The line as it now stands, planned or left out."""
        groups = self.sheet(athlete).groups
        return next(
            line for group in groups for line in (*group.lines, *group.dropped) if line.key == prescription.line_key
        )

    def assign(self, *athletes: Athlete, in_days: int = 0) -> Assignment:
        return assign_session(
            actor=self.coach,
            session=self.session,
            squad=self.cast.squad,
            athletes=athletes,
            venue=self.cast.venue,
            on_date=today() + timedelta(days=in_days),
        )


def tap(number: int = 1, seq: int = 1, uuid: UUID | None = None) -> Tap:
    return Tap(uuid or uuid4(), number, seq, now())


@pytest.fixture
def evening(cast: Cast) -> Evening:
    session = SessionFactory.create(name="Squat and hinge", plan=cast.plan)
    segment = SegmentFactory.create(session=session)
    first = CircuitGroupFactory.create(segment=segment, position=0, rounds_min=4)
    second = CircuitGroupFactory.create(segment=segment, position=1, rounds_min=3)
    knees = ["knee", "hip"]
    squat = ExerciseFactory.create(name="Front squat", patterns=["squat"], regions=knees, needs=[["barbell"], ["rack"]])
    split = ExerciseFactory.create(
        name="Split squat",
        patterns=["lunge"],
        regions=[("knee", "working")],
        load_meaning="none",
        laterality="unilateral",
    )
    goblet = ExerciseFactory.create(
        name="Goblet squat", patterns=["squat"], regions=["hip"], load_meaning="single", needs=[["dumbbell"]]
    )
    common = {"load": Decimal(60), "load_unit": "kg", "load_rule": "fixed", "low": Decimal(5)}
    a1 = PrescriptionFactory.create(group=first, exercise=squat, position=0, **common)
    PrescriptionSwap.objects.create(prescription=a1, exercise=goblet)
    a2 = PrescriptionFactory.create(group=first, exercise=split, position=1, low=Decimal(8), per="side")
    b1 = PrescriptionFactory.create(group=second, exercise=cast.exercise, position=0, **common)
    made = Evening(cast, session, a1, a2, b1, goblet, Assignment())
    made.assignment = made.assign(cast.athlete, cast.team_mate)
    return made
