"""Cards of heavy squats on chosen days of one fortnight, for the checks."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

from coachhub.base.clock import today
from coachhub.cards.models import Assignment
from coachhub.library.models import Exercise
from coachhub.people.models import Athlete, Squad
from coachhub.plans.models import Prescription
from coachhub.season.models import MatchDay
from tests.cast import Cast
from tests.factories import (
    AssignmentFactory,
    CardFactory,
    CardLineFactory,
    CardRevisionFactory,
    CircuitGroupFactory,
    ExerciseFactory,
    PrescriptionFactory,
    SegmentFactory,
    SessionFactory,
)


class Fortnight:
    """`first`: its Monday; days are counted from it. Four rounds of 5 at 85 %, two minutes of rest."""

    def __init__(self, cast: Cast) -> None:
        self.cast = cast
        self.first = today() - timedelta(days=today().weekday())
        self.last = self.first + timedelta(days=13)
        squat = ExerciseFactory.create(name="Front squat", patterns=["squat"], needs=[["barbell"], ["rack"]])
        session = SessionFactory.create(name="Heavy squats", plan=cast.plan)
        group = CircuitGroupFactory.create(
            segment=SegmentFactory.create(session=session), rounds_min=4, rest_min_s=120, position=0
        )
        self.line: Prescription = PrescriptionFactory.create(
            group=group, exercise=squat, low=5, load_rule="percent", percent=Decimal(85)
        )

    def day(self, number: int) -> date:
        return self.first + timedelta(days=number)

    def give(
        self,
        number: int,
        *athletes: Athlete,
        squad: Squad | None = None,
        instead: Exercise | None = None,
        sets: int = 4,
    ) -> Assignment:
        """On that day; `instead`: what is trained in place of the squat."""
        assignment = AssignmentFactory.create(
            session=self.line.group.segment.session,
            squad=squad or self.cast.squad,
            venue=self.cast.venue,
            on_date=self.day(number),
        )
        for athlete in athletes:
            revision = CardRevisionFactory.create(card=CardFactory.create(assignment=assignment, athlete=athlete))
            CardLineFactory.create(
                revision=revision, line_key=self.line.line_key, exercise=instead or self.line.exercise, sets=sets
            )
        return assignment

    def match(self, number: int, squad: Squad | None = None) -> MatchDay:
        return MatchDay.objects.create(
            squad=squad or self.cast.squad, on_date=self.day(number), opponent=f"Fen Gate {MatchDay.objects.count()}"
        )
